import type { Kelvin } from '../../units.ts';
import type { Grid } from './grid.ts';

/** Work space of the solver: one set for a whole run. */
export interface Work {
  readonly temperatures: Float64Array;
  readonly conductivities: Float64Array;
  /** W/K between a volume and the next one out; the last: to the air. */
  readonly conductances: Float64Array;
  readonly upper: Float64Array;
  readonly change: Float64Array;
  /** Between what heat contents the solution is looked for. */
  readonly least: Float64Array;
  readonly most: Float64Array;
}

export const workFor = ({ media }: Grid): Work => {
  const row = () => new Float64Array(media.length);
  return {
    temperatures: row(),
    conductivities: row(),
    conductances: row(),
    upper: row(),
    change: row(),
    least: row(),
    most: row(),
  };
};

/** Temperatures of the volumes and conductances between them, from their heat contents. */
export const evaluate = (grid: Grid, heat: Float64Array, work: Work, film: number): void => {
  const { media, inward, outward, gaps } = grid;
  const { temperatures, conductivities, conductances } = work;
  const last = media.length - 1;
  for (let i = 0; i <= last; i++) {
    temperatures[i] = media[i].temperature(heat[i]);
    conductivities[i] = media[i].conductivity(temperatures[i]);
  }
  for (let i = 0; i < last; i++)
    conductances[i] = 1 / (outward[i] / conductivities[i] + gaps[i] + inward[i + 1] / conductivities[i + 1]);
  conductances[last] = 1 / (outward[last] / conductivities[last] + gaps[last] + film);
};

/** Change of temperature below which a stage counts as solved, K. */
const settled = 1e-9;
const mostSteps = 30;

/**
 * Solves one implicit stage: V (H - H*) = w (heat flowing in at the temperatures of H), for the heat contents H.
 *
 * Newton's method on heat content, with conductances of the step before; the system is tridiagonal, and its columns are
 * diagonally dominant, so elimination needs no pivots. While a volume melts its temperature does not answer to heat, and
 * the method takes the kink in its stride (its function is convex there). It is kept to temperatures not far beyond those
 * of the body and the air, where the solution must lie.
 *
 * @param heat in: a first guess; out: the solution, as H* plus exactly what flowed
 * @param film resistance between the surface and the air, K/W
 * @returns heat flow in through the surface, W; null where it does not settle
 */
export const solveStage = (
  grid: Grid,
  known: Float64Array,
  heat: Float64Array,
  weight: number,
  film: number,
  air: Kelvin,
  work: Work,
): number | null => {
  const { media, volumes } = grid;
  const { temperatures: t, conductances: g, upper, change } = work;
  const last = media.length - 1;
  bound(grid, heat, air, work);
  for (let step = 0; step < mostSteps; step++) {
    evaluate(grid, heat, work, film);
    let worst = 0;
    for (let i = 0; i <= last; i++) {
      const inner = i === 0 ? 0 : g[i - 1];
      const slope = media[i].slope(heat[i]);
      const inflow =
        (i === 0 ? 0 : inner * (t[i - 1] - t[i])) + g[i] * ((i === last ? air : t[i + 1]) - t[i]);
      const off = weight * inflow - volumes[i] * (heat[i] - known[i]);
      const lower = i === 0 ? 0 : -weight * inner * media[i - 1].slope(heat[i - 1]);
      const pivot = volumes[i] + weight * (inner + g[i]) * slope - (i === 0 ? 0 : lower * upper[i - 1]);
      upper[i] = i === last ? 0 : (-weight * g[i] * media[i + 1].slope(heat[i + 1])) / pivot;
      change[i] = (off - (i === 0 ? 0 : lower * change[i - 1])) / pivot;
    }
    for (let i = last; i >= 0; i--) {
      if (i < last) change[i] -= upper[i] * change[i + 1];
      // in kelvin, whatever the material, melting or not
      worst = Math.max(worst, Math.abs(change[i]) * media[i].slope(Math.min(heat[i], -1)));
      heat[i] = Math.min(Math.max(heat[i] + change[i], work.least[i]), work.most[i]);
    }
    if (!(worst < Number.POSITIVE_INFINITY)) return null;
    if (worst > settled) continue;
    evaluate(grid, heat, work, film);
    for (let i = 0; i <= last; i++) {
      const inflow =
        (i === 0 ? 0 : g[i - 1] * (t[i - 1] - t[i])) + g[i] * ((i === last ? air : t[i + 1]) - t[i]);
      heat[i] = known[i] + (weight * inflow) / volumes[i];
    }
    return g[last] * (air - t[last]);
  }
  return null;
};

/** A body can't get colder or warmer than all around it; the method's second stage overshoots by less than the span. */
const bound = ({ media }: Grid, heat: Float64Array, air: Kelvin, { least, most }: Work): void => {
  let [coldest, warmest] = [air, air];
  for (let i = 0; i < media.length; i++) {
    const temperature = media[i].temperature(heat[i]);
    coldest = Math.min(coldest, temperature);
    warmest = Math.max(warmest, temperature);
  }
  const span = warmest - coldest + 1;
  for (let i = 0; i < media.length; i++) {
    least[i] = media[i].heatContent(Math.max(coldest - span, 1));
    most[i] = media[i].heatContent(warmest + span);
  }
};
