import { numberTaken, type Relation, relation, type Takes, type ValuesOf } from '../relations/relation.ts';
import { inKelvin, type Seconds } from '../units.ts';
import { boxImprovement } from './box-improvement.ts';
import type { BoxedCore } from './box-model.ts';
import { boxWarming } from './boxed-core.ts';
import { insulations } from './insulation.ts';

const names = <T extends object>(table: T) => Object.keys(table) as (keyof T & string)[];
const practice = 'boxes of the trade, no source';

const takes = {
  diameter: numberTaken(
    'd',
    'diameter of a piece of core',
    'm',
    [0.02, 0.5],
    'cores of the trade, no source',
  ),
  cores: { ...numberTaken('n', 'pieces side by side', '1', [1, 500], practice), usual: 1 },
  length: numberTaken('L', 'length of the pieces, and of the box inside', 'm', [0.05, 6], practice),
  density: {
    ...numberTaken(
      'ρ',
      'density of the ice or firn',
      'kg/m3',
      [250, 917],
      'firn to ice; more than 917 is counted as 917 by the conductivities',
    ),
    usual: 900,
  },
  mass: {
    ...numberTaken(
      'm',
      'mass of the ice, where it was weighed; 0: from diameter, pieces and length',
      'kg',
      [0, 5000],
      practice,
    ),
    usual: 0,
  },
  snow: numberTaken('s', 'thickness of the packing snow around the ice; 0: none', 'm', [0, 2], practice),
  snowDensity: {
    ...numberTaken(
      'ρ_s',
      'density of the packing snow',
      'kg/m3',
      [50, 700],
      'what snow can have when it is packed by hand, no source',
    ),
    usual: 350,
  },
  material: { kind: 'choice', symbol: '', what: 'material of the wall', options: names(insulations) },
  insulation: numberTaken('w', 'thickness of the wall; 0: none', 'm', [0, 2], practice),
  conductivity: {
    ...numberTaken(
      'λ',
      'conductivity of the wall, where it is known; 0: that of the material',
      'W/m/K',
      [0, 5],
      practice,
    ),
    usual: 0,
  },
  area: {
    ...numberTaken(
      'A',
      'outer area of the box; 0: that of a round one with two ends',
      'm2',
      [0, 200],
      practice,
    ),
    usual: 0,
  },
  film: {
    ...numberTaken(
      'h',
      'heat transfer coefficient outside, film and radiation: 8 in still air, 25 in wind',
      'W/m2/K',
      [1, 200],
      'still air to a gale; ISO 6946 has 7.7 and 25 (from memory)',
    ),
    usual: 8,
  },
  start: numberTaken(
    'T_0',
    'temperature of all of the box at the start',
    'Cel',
    [-80, 0],
    'frozen, and where the conductivities hold',
  ),
  ambient: numberTaken('T_∞', 'temperature of the air', 'Cel', [-80, 60], 'weather on Earth, no source'),
  irradiance: {
    ...numberTaken(
      'I',
      'sunlight, as a mean over the whole outside',
      'W/m2',
      [0, 1400],
      'more than the sun gives',
    ),
    usual: 0,
  },
  albedo: {
    ...numberTaken('a', 'share of it that the outside throws back', '1', [0, 1], 'by definition'),
    usual: 0.5,
  },
  limit: {
    ...numberTaken('T_lim', 'temperature that the ice must not pass', 'Cel', [-70, -0.1], 'below melting'),
    usual: -15,
  },
  variant: {
    kind: 'choice',
    symbol: '',
    what: 'by whom snow and ice conduct',
    options: ['Calonne 2019', 'Calonne 2011', 'Yen 1981 (snow)', 'Jordan 1991', 'Van Dusen 1929'],
  },
} as const satisfies Takes;

type Given = ValuesOf<typeof takes>;

const iceOf = ({ mass, density, diameter, cores, length }: Given) =>
  mass > 0 ? mass : (density * Math.PI * diameter ** 2 * cores * length) / 4;

const boxOf = (given: Given): BoxedCore => {
  const material = insulations[given.material];
  const box = {
    ice: iceOf(given),
    density: given.density,
    length: given.length,
    snow: given.snow > 0 ? { thickness: given.snow, density: given.snowDensity } : null,
    wall:
      given.insulation > 0
        ? {
            ...material,
            thickness: given.insulation,
            conductivity: given.conductivity > 0 ? given.conductivity : material.conductivity,
          }
        : null,
    film: given.film,
    conductivity: given.variant,
  };
  return given.area > 0 ? { ...box, area: given.area } : box;
};

const surroundings = (given: Given) => ({
  start: inKelvin(given.start),
  weather: { temperature: inKelvin(given.ambient), irradiance: given.irradiance, albedo: given.albedo },
  limit: inKelvin(given.limit),
});

/** Standard deviation of a result between published conductivities: nobody knows that of packed snow better. */
const spread = (values: readonly number[]): number => {
  const mean = values.reduce((a, b) => a + b, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(square / (values.length - 1));
};

const hours = (time: Seconds | null) => (time === null ? null : time / 3600);

const caution =
  'Computed, not measured: a lid that was opened, a gap in the packing, wet snow or a damaged wall is not in it. The silence of a logger is no sign of cold. A thermometer in the box, the rules of the transport and the people who answer for the ice decide.';
const source =
  'finite volumes checked against Carslaw & Jaeger 1959 and Heisler 1947; materials and conductivities as named; box as a cylinder: common practice, no source';

export const boxRelations: readonly Relation[] = [
  relation({
    name: 'box-warming',
    title: 'How long a box of core keeps below a limit',
    page: 'boxed-core',
    source,
    takes,
    gives: {
      core: {
        symbol: 't_core',
        what: 'time until the outside of the ice passes the limit, by finite volumes; none: never',
        unit: 'h',
      },
      middle: { symbol: 't_mid', what: 'time until its middle does, by finite volumes', unit: 'h' },
      edge: {
        symbol: 't_edge',
        what: 'time for a piece that lies at the wall, outside of the packing, by finite volumes',
        unit: 'h',
      },
      lumped: {
        symbol: 't_l',
        what: 'everything in the box at one temperature: an upper bound for what lies at the wall',
        unit: 'h',
      },
      ice: { symbol: 'm', what: 'mass of the ice', unit: 'kg' },
      snow: { symbol: 'm_s', what: 'mass of the packing snow', unit: 'kg' },
      area: { symbol: 'A', what: 'outer area that was counted with', unit: 'm2' },
      conductance: { symbol: 'UA', what: 'heat through wall and film a degree', unit: 'W/K' },
      melted: { symbol: 'f', what: 'share of the packing that is melted by then', unit: '1' },
    },
    caution,
    compute: (given) => {
      const { start, weather, limit } = surroundings(given);
      const found = boxWarming(boxOf(given), start, weather, limit);
      return {
        core: hours(found.core),
        middle: hours(found.middle),
        edge: hours(found.edge),
        lumped: hours(found.lumped),
        ice: iceOf(given),
        snow: found.snow,
        area: found.area,
        conductance: found.conductance,
        melted: found.melted,
      };
    },
    own: (given, { core }) => {
      if (core === null) return {};
      const { start, weather, limit } = surroundings(given);
      const found = takes.variant.options.map((variant) =>
        boxWarming(boxOf({ ...given, variant }), start, weather, limit),
      );
      return {
        core: spread(found.map((one) => Number(one.core) / 3600)),
        middle: spread(found.map((one) => Number(one.middle) / 3600)),
        edge: spread(found.map((one) => Number(one.edge) / 3600)),
      };
    },
  }),
  relation({
    name: 'box-improvement',
    title: 'Time that more packing snow or a thicker wall buys',
    page: 'boxed-core',
    source,
    takes: {
      ...takes,
      moreSnow: { ...numberTaken('Δs', 'packing added', 'm', [0.001, 1], practice), usual: 0.05 },
      moreInsulation: { ...numberTaken('Δw', 'wall added', 'm', [0.001, 1], practice), usual: 0.02 },
    },
    gives: {
      now: { symbol: 't_core', what: 'time until the outside of the ice passes the limit', unit: 'h' },
      withSnow: { symbol: 't_s', what: 'that time with more packing', unit: 'h' },
      withWall: { symbol: 't_w', what: 'that time with a thicker wall', unit: 'h' },
      snowBuys: { symbol: 'Δt_s', what: 'what the packing buys', unit: 'h' },
      wallBuys: { symbol: 'Δt_w', what: 'what the wall buys', unit: 'h' },
    },
    caution,
    compute: (given) => {
      const { start, weather, limit } = surroundings(given);
      const more = { snow: given.moreSnow, wall: given.moreInsulation };
      const found = boxImprovement(boxOf(given), start, weather, limit, more);
      const bought = (time: Seconds | null) =>
        time === null || found.now === null ? null : (time - found.now) / 3600;
      return {
        now: hours(found.now),
        withSnow: hours(found.moreSnow),
        withWall: hours(found.moreWall),
        snowBuys: bought(found.moreSnow),
        wallBuys: bought(found.moreWall),
      };
    },
  }),
];
