import { numberTaken, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { creepVariantAsked, gravityAsked, iceTemperatureAsked, layersAsked } from './asked.ts';
import { creepParameter, creepParameterAll, creepVariants } from './creep-parameter.ts';
import { closureRate, closureRateAll, diameterAfter, timeToLose } from './hole-closure.ts';
import { fluidPressure, overburden, overburdenAll } from './overburden.ts';

const day = 86_400;

const caution =
  'Steady creep alone. In a fresh hole primary creep comes first and is faster; firn closes by compaction as well; warm, dusty or oriented ice creeps faster than the published parameter. No scatter of that parameter was found in print: the uncertainty shown is only that of what was entered. This says what was computed, not that a drill will come up again. Watch drag and the diameter, keep to the local rules; the driller decides.';

const source = 'Nye 1953, Proc. R. Soc. A 219, 477, doi:10.1098/rspa.1953.0161 (from memory), n = 3';

const asked = {
  diameter: numberTaken(
    'D_0',
    'diameter of the hole now',
    'mm',
    [10, 1000],
    'holes that are drilled for cores',
  ),
  meanDensity: numberTaken(
    'ρ̄',
    'mean density of all above',
    'kg/m3',
    [50, 940],
    'fresh snow to ice under pressure',
  ),
} as const;
/** Time, fluid and whose creep: the same for one depth and for a whole hole. */
const circumstances = {
  days: { ...numberTaken('t', 'time that the hole stands', 'd', [0, 36_525], 'a hundred years'), usual: 10 },
  fluidDensity: {
    ...numberTaken(
      'ρ_f',
      'density of the fluid in the hole; 0 where it is dry',
      'kg/m3',
      [0, 2000],
      'air to brine',
    ),
    usual: 0,
  },
  fluidLevel: {
    ...numberTaken('z_f', 'depth of the fluid’s surface', 'm', [0, 5000], 'no ice sheet is thicker'),
    usual: 0,
  },
  variant: creepVariantAsked,
  gravity: gravityAsked,
} as const;

/** How fast a hole closes at one depth, and how long until the drill's room is gone. */
export const holeClosureRelation = relation({
  name: 'hole-closure',
  title: 'Closure of a hole by creep, and time until a given diameter is lost',
  page: 'creep-and-closure',
  source,
  takes: {
    diameter: asked.diameter,
    depth: numberTaken('z', 'depth', 'm', [0, 5000], 'no ice sheet is thicker'),
    temperature: iceTemperatureAsked,
    meanDensity: asked.meanDensity,
    clearance: numberTaken(
      'X',
      'diameter that may be lost before the drill has no room',
      'mm',
      [0, 500],
      'less than the hole is wide',
    ),
    ...circumstances,
  },
  gives: {
    excess: { symbol: 'Δp', what: 'pressure of the ice less that of the fluid', unit: 'kPa' },
    rate: { symbol: 'ṙ/r', what: 'part of the diameter that is lost in a day', unit: '%/d' },
    diameterThen: { symbol: 'D', what: 'diameter after that time', unit: 'mm' },
    lossTime: {
      symbol: 't_X',
      what: 'time until that diameter is lost by this alone; none where the hole doesn’t close',
      unit: 'd',
    },
    shortestLossTime: {
      symbol: 't_min',
      what: 'the same by the published creep parameter that closes the hole fastest',
      unit: 'd',
    },
  },
  caution,
  compute: ({
    diameter,
    depth,
    temperature,
    meanDensity,
    clearance,
    days,
    fluidDensity,
    fluidLevel,
    variant,
    gravity,
  }) => {
    const ice = overburden(meanDensity, depth, gravity);
    const excess = ice - fluidPressure(fluidDensity, fluidLevel, depth, gravity);
    const rateBy = (one: typeof variant) =>
      closureRate(creepParameter(inKelvin(temperature), one, ice), excess);
    const lossBy = (rate: number) => {
      const seconds = timeToLose(diameter / 1000, clearance / 1000, rate);
      return seconds === null ? null : seconds / day;
    };
    const rate = rateBy(variant);
    return {
      excess: excess / 1000,
      rate: rate * day * 100,
      diameterThen: 1000 * diameterAfter(diameter / 1000, rate, days * day),
      lossTime: lossBy(rate),
      shortestLossTime: lossBy(Math.max(...creepVariants.map(rateBy))),
    };
  },
});

/** The same down a whole hole, with its own temperatures and densities. */
export const holeClosureAlongRelation = relation({
  name: 'hole-closure-along',
  title: 'Diameter of a hole along its depth after some days',
  page: 'creep-and-closure',
  source,
  takes: {
    diameter: asked.diameter,
    ...layersAsked,
    temperatures: {
      ...iceTemperatureAsked,
      kind: 'numbers',
      symbol: 'T_i',
      what: 'temperature at the bottom of each layer',
    },
    ...circumstances,
  },
  gives: {
    diameters: { symbol: 'D_i', what: 'diameter at the bottom of each layer', unit: 'mm' },
    narrowest: { symbol: 'D_min', what: 'least of them', unit: 'mm' },
  },
  caution,
  compute: ({
    diameter,
    bottoms,
    densities,
    temperatures,
    days,
    fluidDensity,
    fluidLevel,
    variant,
    gravity,
  }) => {
    const ice = overburdenAll(bottoms, densities, bottoms, gravity, new Float64Array(bottoms.length));
    const excess = ice.map((one, i) => one - fluidPressure(fluidDensity, fluidLevel, bottoms[i], gravity));
    const parameters = creepParameterAll(
      temperatures.map(inKelvin),
      variant,
      ice,
      new Float64Array(bottoms.length),
    );
    const rates = closureRateAll(parameters, excess, parameters);
    const diameters = Array.from(rates, (rate) => 1000 * diameterAfter(diameter / 1000, rate, days * day));
    return { diameters, narrowest: Math.min(...diameters) };
  },
});
