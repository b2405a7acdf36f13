import type { PanelInput } from './input.ts';

/**
 * Ends of a panel's axis: round numbers around everything that it shows, standard deviations included. Values that
 * can't be don't stretch it, unless there is nothing else: they are drawn at its end. Without values it is 0 to 1.
 */
export function rangeOf({
  samples,
  curves,
}: Pick<PanelInput, 'samples' | 'curves'>): readonly [number, number] {
  let least = Infinity;
  let most = -Infinity;
  const hold = (value: number): void => {
    if (value < least) least = value;
    if (value > most) most = value;
  };
  const likely = samples.filter((one) => !one.flagged);
  for (const { value, sd } of likely.length > 0 ? likely : samples) {
    hold(value - (sd ?? 0));
    hold(value + (sd ?? 0));
  }
  for (const { points } of curves)
    for (const point of points) {
      hold(point.low ?? point.value);
      hold(point.high ?? point.value);
    }
  if (!(most >= least)) return [0, 1];
  const span = most - least || 0.1 * Math.abs(most) || 1;
  const step = roundStep(span / 4);
  const [low, high] = [Math.floor(least / step + 1e-9) * step, Math.ceil(most / step - 1e-9) * step];
  return high > low ? [low, high] : [low - step, high + step];
}

/** 1, 2 or 5 times a power of ten, not below the wish. */
function roundStep(wish: number): number {
  const power = 10 ** Math.floor(Math.log10(wish));
  const times = [1, 2, 5, 10].find((one) => one * power >= wish * (1 - 1e-9)) ?? 10;
  return times * power;
}
