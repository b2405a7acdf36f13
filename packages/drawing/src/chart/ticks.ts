import type { ChartAxis } from './input.ts';

interface ChartTick {
  readonly value: number;
  /** Null: a short tick between two that are named. */
  readonly label: TickLabel | null;
}

/** Digits, or ten to a power that is written raised. */
export type TickLabel = { readonly digits: string } | { readonly power: number };

export interface ChartTicks {
  /** In the order of their values. */
  readonly ticks: readonly ChartTick[];
  /** Power of ten that the labels leave out and the axis names; 0 where they say it all. */
  readonly power: number;
}

/**
 * Ticks of an axis: whole steps of 1, 2 or 5 and a power of ten, or the decades of a logarithmic one.
 *
 * @param most labels that there is room for
 */
export function chartTicks(axis: ChartAxis, most: number): ChartTicks {
  const [least, top] = [Math.min(axis.from, axis.to), Math.max(axis.from, axis.to)];
  return axis.log ? decades(least, top, most) : steps(least, top, most);
}

function steps(least: number, top: number, most: number): ChartTicks {
  const step = roundStep((top - least) / most);
  const power = powerOf(Math.max(Math.abs(least), Math.abs(top)));
  const decimals = Math.max(0, power - Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(least / step - 1e-9);
  const last = Math.floor(top / step + 1e-9);
  const ticks = Array.from({ length: last - first + 1 }, (_, at) => {
    // A zero that is minus nothing is written as one.
    const value = (first + at) * step || 0;
    return { value, label: { digits: digits(value / 10 ** power, decimals) } };
  });
  return { ticks, power };
}

/** Thousands stay as they are; what is above or below is counted in thousands of thousands, or of thousandths. */
function powerOf(size: number): number {
  const power = Math.floor(Math.log10(size) + 1e-9);
  return power >= 5 || power < -2 ? 3 * Math.floor(power / 3) : 0;
}

/** 1, 2 or 5 times a power of ten, not below the wish. */
function roundStep(wish: number): number {
  const power = 10 ** Math.floor(Math.log10(wish));
  return power * ([1, 2, 5, 10].find((one) => one * power >= wish * (1 - 1e-9)) ?? 10);
}

function decades(least: number, top: number, most: number): ChartTicks {
  const [first, last] = [Math.floor(Math.log10(least) + 1e-9), Math.ceil(Math.log10(top) - 1e-9)];
  const span = Math.log10(top / least);
  const every = Math.max(1, Math.ceil(span / most));
  // Where there is room between the decades, 2 and 5 are named too.
  const named = span * 3 <= most ? [1, 2, 5] : [1];
  const isPlain = least >= 0.00099 && top <= 10_001;
  const ticks: ChartTick[] = [];
  for (let power = first; power <= last; power += 1)
    for (let times = 1; times <= 9; times += 1) {
      const value = Number(`${times}e${power}`);
      if (value < least * (1 - 1e-9) || value > top * (1 + 1e-9)) continue;
      const isNamed = named.includes(times) && (power - first) % every === 0;
      if (!isNamed && every > 1 && times > 1) continue;
      ticks.push({ value, label: isNamed ? logLabel(times, power, isPlain) : null });
    }
  return { ticks, power: 0 };
}

function logLabel(times: number, power: number, isPlain: boolean): TickLabel {
  if (isPlain || times > 1) return { digits: digits(Number(`${times}e${power}`), Math.max(0, -power)) };
  return { power };
}

/** With the minus sign of print, and thin spaces between thousands of five and more digits. */
function digits(value: number, decimals: number): string {
  const [whole = '', rest] = Math.abs(value).toFixed(decimals).split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, '\u2009') : whole;
  return `${value < 0 ? '\u2212' : ''}${grouped}${rest === undefined ? '' : `.${rest}`}`;
}
