interface Tick {
  /** Metres. */
  readonly depth: number;
  /** Long ticks have a label. */
  readonly long: boolean;
}

export interface Ticks {
  readonly ticks: readonly Tick[];
  /** Decimals that tell one label from the next. */
  readonly decimals: number;
}

/** Steps of 1, 2 and 5 over the decades, micrometres to kilometres. */
const steps: readonly number[] = Array.from({ length: 30 }, (_, at) => ({
  mantissa: [1, 2, 5][at % 3]!,
  decade: Math.floor(at / 3) - 6,
})).map(({ mantissa, decade }) => Number(`${mantissa}e${decade}`));

/**
 * Ticks of a depth axis: labels as close as they can be read, unlabelled ticks between them as close as they
 * can be counted.
 *
 * @param from metres
 * @param to metres
 * @param mmPerMetre scale
 * @param apart least millimetres between two labels
 */
export function ticksFor(from: number, to: number, mmPerMetre: number, apart = 16): Ticks {
  const long = steps.find((step) => step * mmPerMetre >= apart) ?? steps.at(-1)!;
  const short =
    steps.find((step) => step * mmPerMetre >= 2 && isMultiple(long, step) && long / step <= 10) ?? long;
  const first = Math.ceil(from / short - 1e-9);
  const last = Math.floor(to / short + 1e-9);
  const ticks: Tick[] = [];
  for (let at = first; at <= last; at += 1)
    ticks.push({ depth: at * short, long: isMultiple(at * short, long) });
  return { ticks, decimals: Math.max(0, -Math.floor(Math.log10(long) + 1e-9)) };
}

function isMultiple(value: number, step: number): boolean {
  const times = value / step;
  return Math.abs(times - Math.round(times)) < 1e-6;
}
