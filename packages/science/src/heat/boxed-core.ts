import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Kelvin, Kilograms, Ratio, Seconds, SquareMetres } from '../units.ts';
import { type BoxedCore, type BoxModel, boxModel } from './box-model.ts';
import { lumpedTimeTo } from './lumped.ts';
import { conduct, type Moment, type Outside } from './volumes/conduct.ts';

/** Air and sun around a box that do not change. */
export interface Weather {
  readonly temperature: Kelvin;
  /** Sunlight as a mean over the whole outside, W/m2. */
  readonly irradiance?: number;
  readonly albedo?: Ratio;
}

export interface BoxWarming {
  /** Until the outside of the ice passes the limit, by finite volumes; null: never. */
  readonly core: Seconds | null;
  /** Until its middle does. */
  readonly middle: Seconds | null;
  /** Until the outside of the packing does: what a piece feels that lies against the wall. */
  readonly edge: Seconds | null;
  /** Everything in the box at one temperature: an upper bound for `edge`, not for `core`. */
  readonly lumped: Seconds | null;
  /** Share of the packing (of the ice, where there is none) that is melted when the core passes. */
  readonly melted: Ratio;
  readonly snow: Kilograms;
  readonly area: SquareMetres;
  /** What wall and film let through a degree, W/K. */
  readonly conductance: number;
}

/** Steps in the time that the box is expected to take. */
const stepsExpected = 120;
/** A box that takes this much longer than expected does not pass. */
const patience = 100;

/**
 * How long a box of core keeps below a limit in air that is warmer, by finite volumes and as one lump.
 *
 * The first is the model of `box-model.ts` solved by `conduct`; the second tau ln((T_out - T_start)/(T_out - T_limit))
 * with all of ice, packing and wall in one. In the second heat flows in as if the inside were as cold at the wall as in
 * the middle, so what lies at the wall can't wait longer; the core inside packing may, since packing warms before it.
 *
 * Source: models as cited there; a box as a cylinder: common practice, no source.
 *
 * Validity: starts at one temperature; closed, dry, no draught; what melts stays where it is. An opened lid or a gap in
 * the packing is not in it.
 *
 * @param limit below 273.15 K
 * @throws QuantityError for a box that can't be, a limit that is not above 200 K and below melting
 */
export const boxWarming = (box: BoxedCore, start: Kelvin, weather: Weather, limit: Kelvin): BoxWarming => {
  const model = boxModel(box);
  mustLie('box of core', 'temperature at the start', start, 190, 273.15, 'K');
  mustLie('box of core', 'limit', limit, 200, 273.14, 'K');
  const outside = outsideOf(box, model, {
    temperature: () => weather.temperature,
    irradiance: () => weather.irradiance ?? 0,
    albedo: weather.albedo ?? 0,
  });
  const body = model.lumpedAt(limit);
  const air = airWithSun(box, weather);
  mustLie('box of core', 'temperature of the air, with what the sun adds', air, 150, 400, 'K');
  const lumped = lumpedTimeTo(body, { start, outside: air, limit });
  const rest = { lumped, snow: model.snow, area: model.area, conductance: body.conductance };
  if (lumped === null || lumped === 0)
    return { core: lumped, middle: lumped, edge: lumped, melted: 0, ...rest };
  const expected = lumped + model.evening;
  const step = expected / stepsExpected;
  const passed: Record<'core' | 'middle' | 'edge', Seconds | null> = { core: null, middle: null, edge: null };
  const before = { time: 0, core: start, middle: start, edge: start };
  let melted = 0;
  const run = { grid: model.grid, outside, start, step, until: patience * expected };
  conduct(run, (moment) => {
    const now = { time: moment.time, ...placesOf(model, moment) };
    for (const place of ['core', 'middle', 'edge'] as const)
      if (passed[place] === null && now[place] >= limit) {
        const share = (limit - before[place]) / (now[place] - before[place]);
        passed[place] = before.time + share * (now.time - before.time);
        if (place === 'core') melted = meltedOf(model, moment);
      }
    Object.assign(before, now);
    return passed.middle !== null;
  });
  if (passed.middle === null)
    throw new QuantityError('box of core', `it passes the limit after more than ${run.until} s`, 'less');
  return { ...passed, melted, ...rest };
};

/** Temperatures in a box over time. */
export interface BoxForecast {
  readonly times: Float64Array;
  /** At the outside of the ice, in its middle, and at the outside of the packing; K. */
  readonly core: Float64Array;
  readonly middle: Float64Array;
  readonly edge: Float64Array;
}

/**
 * What a box does in air and sun that change: the way from the temperature that a logger felt outside to what the core
 * felt.
 *
 * @param outside temperature (K), irradiance (W/m2) and albedo at a time in seconds from the start
 * @throws QuantityError as `boxWarming`
 */
export const boxForecast = (
  box: BoxedCore,
  start: Kelvin,
  outside: Omit<Outside, 'film'>,
  { step, until }: { readonly step: Seconds; readonly until: Seconds },
): BoxForecast => {
  const model = boxModel(box);
  const rows: { time: Seconds; core: Kelvin; middle: Kelvin; edge: Kelvin }[] = [];
  const run = { grid: model.grid, outside: outsideOf(box, model, outside), start, step, until };
  conduct(run, (moment) => {
    rows.push({ time: moment.time, ...placesOf(model, moment) });
    return false;
  });
  return {
    times: Float64Array.from(rows, (row) => row.time),
    core: Float64Array.from(rows, (row) => row.core),
    middle: Float64Array.from(rows, (row) => row.middle),
    edge: Float64Array.from(rows, (row) => row.edge),
  };
};

const airWithSun = ({ film }: BoxedCore, { temperature, irradiance = 0, albedo = 0 }: Weather): Kelvin =>
  temperature + ((1 - albedo) * irradiance) / film;

/** Film and sun of the box on the surface of the model. */
const outsideOf = (
  { film }: BoxedCore,
  { filmFactor }: BoxModel,
  { temperature, irradiance, albedo = 0 }: Omit<Outside, 'film'>,
): Outside => ({
  temperature,
  film: film * filmFactor,
  irradiance: (time) => (irradiance === undefined ? 0 : irradiance(time) * filmFactor),
  albedo,
});

const placesOf = ({ edge }: BoxModel, { temperatures, faceOf }: Moment) => ({
  core: faceOf(0),
  middle: temperatures[0],
  edge: faceOf(edge),
});

const meltedOf = ({ grid, edge }: BoxModel, { heat }: Moment): Ratio => {
  const first = edge === 0 ? 0 : grid.ends[edge - 1] + 1;
  let [melted, whole] = [0, 0];
  for (let i = first; i <= grid.ends[edge]; i++) {
    melted += grid.volumes[i] * grid.media[i].melted(heat[i]);
    whole += grid.volumes[i];
  }
  return melted / whole;
};
