import type { ChartAxis } from './input.ts';

/**
 * Place of a value along an axis, 0 where it begins and 1 where it ends, without bounds. NaN for what a logarithmic
 * axis can't show.
 *
 * @throws Error where the axis has no length, or a logarithmic one reaches 0
 */
export function chartScale(axis: ChartAxis): (value: number) => number {
  const { from, to, log, label } = axis;
  if (!Number.isFinite(from) || !Number.isFinite(to) || from === to)
    throw new Error(`The axis "${label}" runs from ${from} to ${to}; give it two different finite ends.`);
  if (!log) return (value) => (value - from) / (to - from);
  if (!(from > 0 && to > 0))
    throw new Error(`The logarithmic axis "${label}" runs from ${from} to ${to}; both must be above 0.`);
  const span = Math.log(to / from);
  return (value) => (value > 0 ? Math.log(value / from) / span : Number.NaN);
}
