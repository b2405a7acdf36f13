import { mustLie, QuantityError } from '../../quantity-error.ts';
import type { Kelvin, Metres, Ratio, Seconds, WattsPerSquareMetreKelvin } from '../../units.ts';
import type { Grid } from './grid.ts';
import { evaluate, solveStage, type Work, workFor } from './stage.ts';

/** What is around the body; each may change with time. */
export interface Outside {
  readonly temperature: (time: Seconds) => Kelvin;
  /** Heat transfer coefficient of the air film; without one the surface is as warm as the outside. */
  readonly film?: WattsPerSquareMetreKelvin;
  /** Sunlight on the surface, W/m2, all of it taken as a mean over the surface. */
  readonly irradiance?: (time: Seconds) => number;
  /** Share of it that is thrown back. */
  readonly albedo?: Ratio;
}

/** The body at one time. Arrays are used again at the next one: copy what is to be kept. */
export interface Moment {
  readonly time: Seconds;
  readonly temperatures: Float64Array;
  /** J/m3, from frozen at 0 degrees Celsius. */
  readonly heat: Float64Array;
  /** J that came in through the surface since the start (of a square metre, a metre, or the sphere). */
  readonly taken: number;
  /** Temperature at the outer face of a layer, inside of any gap. */
  readonly faceOf: (layer: number) => Kelvin;
}

export interface Run {
  readonly grid: Grid;
  readonly outside: Outside;
  /** The same everywhere, or by distance from the centre. */
  readonly start: Kelvin | ((place: Metres) => Kelvin);
  readonly step: Seconds;
  readonly until: Seconds;
}

/** Alexander's two-stage method: second order, damps what is fast. */
const gamma = 1 - Math.SQRT1_2;
/** A step that does not settle is halved; more often than this means that something else is wrong. */
const mostHalvings = 12;

/**
 * Heat conduction in one direction by finite volumes: slab, cylinder or sphere of layers, air film, sun, and ice that
 * melts at 0 degrees Celsius.
 *
 * d/dt (V_i H_i) = sum of G (T_neighbour - T_i), H heat content per volume, G one over the resistances from middle to
 * middle (exact for steady flow through each half volume, gaps between layers included). At the surface h (T_air - T_s) +
 * (1 - albedo) I = what goes in, so the sun counts as air that is warmer by (1 - albedo) I/h. In time: two implicit
 * stages of R. Alexander 1977, second order, L-stable; heat is conserved to rounding, since each volume gets exactly what
 * its neighbours gave.
 *
 * Source: textbook (S. V. Patankar 1980, Numerical Heat Transfer and Fluid Flow, chapter 4; from memory); R. Alexander
 * 1977, SIAM J. Numer. Anal. 14, 1006-1021 (from memory); heat content as the unknown: V. R. Voller and M. Cross 1981,
 * Int. J. Heat Mass Transfer 24, 545-556 (from memory).
 *
 * Errors: second order in thickness of the volumes and in the step, tested against the analytic series. While ice melts
 * its temperature lags by up to one volume.
 *
 * @param watch sees the start and every step; true ends the run there
 * @returns the last moment
 * @throws QuantityError for a start outside 150 to 400 K, a step or duration not above 0, an outside that is no number
 */
export const conduct = (run: Run, watch: (moment: Moment) => boolean): Moment => {
  const { grid, outside, start, step, until } = run;
  const where = 'heat by finite volumes';
  mustLie(where, 'step', step, 1e-6, 1e12, 's');
  mustLie(where, 'duration', until, step / 2, 1e14, 's');
  if (outside.film !== undefined)
    mustLie(where, 'heat transfer coefficient', outside.film, 1e-3, 1e7, 'W/m2/K');
  mustLie(where, 'albedo', outside.albedo ?? 0, 0, 1, '');
  const work = workFor(grid);
  const heat = Float64Array.from(grid.places, (place, i) => {
    const temperature = typeof start === 'number' ? start : start(place);
    mustLie(where, 'temperature at the start', temperature, 150, 400, 'K');
    return grid.media[i].heatContent(temperature);
  });
  const film = outside.film === undefined ? 0 : 1 / (outside.film * grid.surface);
  const air = airOf(outside);
  let taken = 0;
  let time = 0;
  const moment = (): Moment => {
    evaluate(grid, heat, work, film);
    const outer = air(time);
    return {
      time,
      temperatures: work.temperatures,
      heat,
      taken,
      faceOf: (layer) => faceTemperature(grid, work, layer, outer),
    };
  };
  let now = moment();
  const steps = Math.ceil(until / step - 1e-9);
  for (let i = 0; i < steps; i++) {
    if (watch(now)) return now;
    const next = i === steps - 1 ? until : (i + 1) * step;
    taken += advance(grid, heat, air, film, time, next - time, work, 0);
    time = next;
    now = moment();
  }
  watch(now);
  return now;
};

/** The air's temperature with the sun's part added, held to be a number. */
const airOf = ({ temperature, film, irradiance, albedo = 0 }: Outside) => {
  const where = 'heat by finite volumes';
  return (time: Seconds): Kelvin => {
    const air = temperature(time);
    mustLie(where, `temperature outside at ${time} s`, air, 150, 400, 'K');
    const light = irradiance === undefined ? 0 : irradiance(time);
    mustLie(where, `irradiance at ${time} s`, light, 0, 2000, 'W/m2');
    return film === undefined ? air : air + ((1 - albedo) * light) / film;
  };
};

/** One step; heat that came in, J. */
const advance = (
  grid: Grid,
  heat: Float64Array,
  air: (time: Seconds) => Kelvin,
  film: number,
  time: Seconds,
  step: Seconds,
  work: Work,
  halvings: number,
): number => {
  const first = heat.slice();
  const flow = solveStage(grid, heat, first, gamma * step, film, air(time + gamma * step), work);
  if (flow !== null) {
    // the first stage's rate of change, weighted for the second
    const share = (1 - gamma) / gamma;
    const known = heat.map((value, i) => value + share * (first[i] - value));
    const second = first;
    const end = solveStage(grid, known, second, gamma * step, film, air(time + step), work);
    if (end !== null) {
      heat.set(second);
      return step * ((1 - gamma) * flow + gamma * end);
    }
  }
  if (halvings >= mostHalvings)
    throw new QuantityError('heat by finite volumes', `a step of ${step} s does not settle`, 'other volumes');
  const half = step / 2;
  return (
    advance(grid, heat, air, film, time, half, work, halvings + 1) +
    advance(grid, heat, air, film, time + half, half, work, halvings + 1)
  );
};

const faceTemperature = ({ ends, outward }: Grid, work: Work, layer: number, air: Kelvin): Kelvin => {
  const { temperatures: t, conductances: g, conductivities: k } = work;
  const i = ends[layer];
  const flow = g[i] * ((i === t.length - 1 ? air : t[i + 1]) - t[i]);
  return t[i] + (flow * outward[i]) / k[i];
};
