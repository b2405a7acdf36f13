import { radarConstants } from '../constants/radar.ts';
import { herronLangway } from '../firn/herron-langway.ts';
import { accumulation, depth, surfaceDensity, temperature } from '../firn/quantities.ts';
import { numbersTaken, numberTaken, type Relation, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { fitMidpoint, moveOut } from './common-midpoint.ts';
import { depthOfTravelTime, firnTravelTime } from './firn-travel-time.ts';
import { type IceSpeedVariant, iceSpeed, iceSpeedVariants, speedUncertainty } from './ice-speed.ts';
import { firnCorrection, thickness } from './ice-thickness.ts';
import { permittivity, refractiveIndex, speedInFirn } from './permittivity.ts';
import { depthInLayers, travelThrough } from './travel-time.ts';

/** Of speeds, and so of times and depths. */
const scatter = radarConstants.speedScatter.value;
const part = (value: unknown): number => scatter * Math.abs(value as number);
/** Of the depth that a firn correction is taken from: travel time and speed in ice, as if independent. */
const correctionPart = (variant: IceSpeedVariant): number => {
  const speed = iceSpeed(variant);
  return Math.hypot(scatter, speedUncertainty(speed) / speed.value);
};

const kovacs =
  'Kovacs, Gow & Morey 1995, Cold Reg. Sci. Technol. 23, 245-256, doi:10.1016/0165-232X(94)00016-Q; scatter of speeds Fujita et al. 2000';

const firnAsked = { temperature, accumulation, surfaceDensity } as const;
const layersAsked = {
  thicknesses: numbersTaken(
    'd_i',
    'thickness of each layer, downwards',
    'm',
    [1e-6, 5000],
    'no ice sheet is thicker',
  ),
  densities: numbersTaken('ρ_i', 'density of each layer', 'kg/m3', [0, 940], 'air to ice under pressure'),
} as const;
const timeAsked = numberTaken('t', 'two-way travel time', 'ns', [0, 100_000], 'no ice sheet is thicker');
const iceVariantAsked = {
  kind: 'choice',
  symbol: 'v_i',
  what: 'published speed in ice',
  options: iceSpeedVariants,
} as const;

const columnOf = (given: {
  readonly temperature: number;
  readonly accumulation: number;
  readonly surfaceDensity: number;
}) =>
  herronLangway({
    temperature: inKelvin(given.temperature),
    accumulation: given.accumulation,
    surfaceDensity: given.surfaceDensity,
  });

const speedRelation = relation({
  name: 'radar-speed',
  title: 'Speed of radio waves in dry snow, firn and ice',
  page: 'radar',
  source: kovacs,
  takes: {
    density: numberTaken('ρ', 'density', 'kg/m3', [0, 940], 'air to ice under pressure'),
  },
  gives: {
    permittivity: { symbol: 'ε′', what: 'relative permittivity', unit: '1' },
    index: { symbol: 'n', what: 'refractive index', unit: '1' },
    speed: { symbol: 'v', what: 'speed', unit: 'm/us' },
  },
  compute: ({ density }) => ({
    permittivity: permittivity(density),
    index: refractiveIndex(density),
    speed: speedInFirn(density) / 1e6,
  }),
  own: (_, { permittivity: relative, index, speed }) => ({
    permittivity: 2 * part(relative),
    index: part(index),
    speed: part(speed),
  }),
});

const layersRelation = relation({
  name: 'radar-time-layers',
  title: 'Two-way travel time through layers of known density, and what the firn adds to a depth',
  page: 'radar',
  source: kovacs,
  takes: { ...layersAsked, variant: iceVariantAsked },
  gives: {
    depth: { symbol: 'z', what: 'depth of them all', unit: 'm' },
    water: { symbol: 'w', what: 'mass of them all', unit: 'm w.e.' },
    time: { symbol: 't', what: 'two-way travel time', unit: 'ns' },
    meanSpeed: { symbol: 'v̄', what: 'mean speed', unit: 'm/us' },
    correction: { symbol: 'Δ_f', what: 'depth less the depth at the speed in ice', unit: 'm' },
  },
  compute: ({ thicknesses, densities, variant }) => {
    const { depth, water, time, meanSpeed } = travelThrough({ thicknesses, densities });
    return {
      depth,
      water,
      time: time * 1e9,
      meanSpeed: meanSpeed / 1e6,
      correction: firnCorrection(depth, time, iceSpeed(variant).value),
    };
  },
  own: ({ variant }, { depth, correction, time, meanSpeed }) => {
    const reckoned = (depth as number) - (correction as number);
    return { time: part(time), meanSpeed: part(meanSpeed), correction: reckoned * correctionPart(variant) };
  },
});

const depthLayersRelation = relation({
  name: 'radar-depth-layers',
  title: 'Depth of a reflector by its travel time, in layers of known density',
  page: 'radar',
  source: kovacs,
  takes: { ...layersAsked, time: timeAsked },
  gives: { depth: { symbol: 'z', what: 'depth; below the last layer its density holds on', unit: 'm' } },
  compute: ({ thicknesses, densities, time }) => ({
    depth: depthInLayers({ thicknesses, densities }, time * 1e-9),
  }),
  own: (_, { depth }) => ({ depth: part(depth) }),
});

const firnTimeRelation = relation({
  name: 'radar-time-firn',
  title: 'Two-way travel time to a depth of modelled firn',
  page: 'radar',
  source: `${kovacs}; Herron & Langway 1980`,
  takes: {
    ...firnAsked,
    depth,
    variant: iceVariantAsked,
  },
  gives: {
    time: { symbol: 't', what: 'two-way travel time', unit: 'ns' },
    correction: { symbol: 'Δ_f', what: 'depth less the depth at the speed in ice', unit: 'm' },
  },
  compute: ({ depth, variant, ...site }) => {
    const time = firnTravelTime(columnOf(site), depth);
    return { time: time * 1e9, correction: firnCorrection(depth, time, iceSpeed(variant).value) };
  },
  own: ({ depth, variant }, { time, correction }) => ({
    time: part(time),
    correction: (depth - (correction as number)) * correctionPart(variant),
  }),
});

const firnDepthRelation = relation({
  name: 'radar-depth-firn',
  title: 'Depth of a reflector by its travel time, in modelled firn',
  page: 'radar',
  source: `${kovacs}; Herron & Langway 1980`,
  takes: { ...firnAsked, time: { ...timeAsked, range: [0, 50_000] } },
  gives: { depth: { symbol: 'z', what: 'depth', unit: 'm' } },
  compute: ({ time, ...site }) => ({ depth: depthOfTravelTime(columnOf(site), time * 1e-9) }),
  own: (_, { depth }) => ({ depth: part(depth) }),
});

const thicknessRelation = relation({
  name: 'radar-thickness',
  title: 'Thickness of the ice by its bed’s travel time',
  page: 'radar',
  source:
    'common practice; speeds: Robin 1975, J. Glaciol. 15, doi:10.1017/S0022143000034341; Kovacs, Gow & Morey 1995; Fujita et al. 2000',
  takes: {
    time: timeAsked,
    correction: numberTaken(
      'Δ_f',
      'what the firn adds (0 where there is none)',
      'm',
      [0, 60],
      'firn of 150 m adds less',
    ),
    variant: iceVariantAsked,
  },
  gives: {
    thickness: { symbol: 'H', what: 'thickness', unit: 'm' },
    speed: { symbol: 'v_i', what: 'speed in ice that was taken', unit: 'm/us' },
  },
  compute: ({ time, correction, variant }) => ({
    thickness: thickness(time * 1e-9, iceSpeed(variant).value, correction),
    speed: iceSpeed(variant).value / 1e6,
  }),
  own: ({ time, variant }) => ({
    thickness: (speedUncertainty(iceSpeed(variant)) * time * 1e-9) / 2,
    speed: speedUncertainty(iceSpeed(variant)) / 1e6,
  }),
});

const moveOutRelation = relation({
  name: 'radar-move-out',
  title: 'Travel time between antennas that stand apart',
  page: 'radar',
  source: 'hyperbola of normal move-out; handbooks of seismics and radar',
  takes: {
    depth: numberTaken('z', 'depth of the reflector', 'm', [0, 5000], 'no ice sheet is thicker'),
    speed: numberTaken('v', 'speed above it', 'm/us', [10, 299.8], 'no faster than light'),
    distance: numberTaken('x', 'distance of the antennas', 'm', [0, 10_000], 'what the formula can bear'),
  },
  gives: { time: { symbol: 't', what: 'two-way travel time', unit: 'ns' } },
  compute: ({ depth, speed, distance }) => ({ time: moveOut(depth, speed * 1e6, distance) * 1e9 }),
});

const midpointRelation = relation({
  name: 'radar-midpoint-fit',
  title: 'Speed and depth from a common-midpoint survey',
  page: 'radar',
  source: 'least squares of squared times over squared distances; handbooks of seismics and radar',
  takes: {
    distances: numbersTaken(
      'x_i',
      'distances of the antennas',
      'm',
      [0, 10_000],
      'what the formula can bear',
    ),
    times: numbersTaken(
      't_i',
      'two-way travel time at each',
      'ns',
      [0.001, 100_000],
      'no ice sheet is thicker',
    ),
  },
  gives: {
    speed: { symbol: 'v', what: 'speed above the reflector', unit: 'm/us' },
    depth: { symbol: 'z', what: 'depth of the reflector', unit: 'm' },
    time: { symbol: 't_0', what: 'travel time straight down', unit: 'ns' },
    scatter: { symbol: 's', what: 'scatter of the times about the hyperbola', unit: 'ns' },
  },
  compute: ({ distances, times }) => {
    const fit = fitMidpoint(
      distances,
      times.map((time) => time * 1e-9),
    );
    return {
      speed: fit.speed / 1e6,
      depth: fit.depth,
      time: fit.time * 1e9,
      scatter: fit.scatter * 1e9,
    };
  },
  own: ({ distances, times }) => {
    const fit = fitMidpoint(
      distances,
      times.map((time) => time * 1e-9),
    );
    return { speed: fit.speedSd / 1e6, depth: fit.depthSd, time: fit.timeSd * 1e9 };
  },
});

export const radarRelations: readonly Relation[] = [
  speedRelation,
  layersRelation,
  depthLayersRelation,
  firnTimeRelation,
  firnDepthRelation,
  thicknessRelation,
  moveOutRelation,
  midpointRelation,
];
