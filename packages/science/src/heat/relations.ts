import { QuantityError } from '../quantity-error.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { boxRelations } from './box-relations.ts';
import { cylinder } from './cylinder.ts';
import { dampedWave } from './damping-depth.ts';
import { diffusivity } from './diffusivity.ts';
import { lumped, lumpedTimeTo, wallConductance } from './lumped.ts';
import { meanKineticTemperature, usualActivation } from './mean-kinetic-temperature.ts';
import { surfaceHeld, surfaceInAir } from './semi-infinite.ts';
import { slab } from './slab.ts';
import { sphere } from './sphere.ts';
import { heislerTerm, transient } from './transient.ts';
import { conduct } from './volumes/conduct.ts';
import { layeredGrid } from './volumes/grid.ts';
import { plainMedium } from './volumes/medium.ts';

const carslaw =
  'H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition (sections from memory)';
const shapes = { slab, cylinder, sphere } as const;
const zero = 273.15;
const day = 86_400;

const number = (
  symbol: string,
  what: string,
  unit: string,
  range: readonly [number, number],
  because = 'what the formula can bear',
) => numberTaken(symbol, what, unit, range, because);

const shape = {
  kind: 'choice',
  symbol: '',
  what: 'shape; a long core is a cylinder',
  options: ['cylinder', 'slab', 'sphere'],
} as const;
const biot = number('Bi', 'Biot number h L/k, L half the thickness or the radius', '1', [1e-4, 1e6]);
const conductivity = number('k', 'thermal conductivity', 'W/m/K', [1e-4, 1e4]);
const density = number('ρ', 'density', 'kg/m3', [0.1, 3e4]);
const heatCapacity = number('c', 'specific heat capacity', 'J/kg/K', [1, 1e5]);
const thermal = number('a', 'thermal diffusivity k/(ρ c)', 'm2/s', [1e-10, 1]);
const film = number(
  'h',
  'heat transfer coefficient of the surface, film and radiation',
  'W/m2/K',
  [0.001, 1e6],
);
const celsius = (symbol: string, what: string) =>
  number(symbol, what, 'Cel', [-120, 100], 'temperatures of the trade, no source');
const share = (symbol: string, what: string) => ({ symbol, what, unit: '1' }) as const;

export const heatRelations: readonly Relation[] = [
  relation({
    name: 'diffusivity',
    title: 'Thermal diffusivity',
    page: 'heat-analytic',
    source: 'by definition',
    takes: { conductivity, density, heatCapacity },
    gives: { diffusivity: { symbol: 'a', what: 'thermal diffusivity', unit: 'm2/s' } },
    compute: (given) => ({
      diffusivity: diffusivity(given.conductivity, given.density, given.heatCapacity),
    }),
  }),
  relation({
    name: 'heat-series',
    title: 'Warming of a slab, cylinder or sphere in other surroundings',
    page: 'heat-analytic',
    source: `${carslaw}, 3.11, 7.7, 9.4`,
    takes: {
      shape,
      surface: {
        kind: 'choice',
        symbol: '',
        what: 'surface: in air, or held at the temperature outside (then Bi has no part in it)',
        options: ['in air', 'held'],
      },
      biot: { ...biot, usual: 1 },
      fourier: number('Fo', 'Fourier number a t/L²', '1', [3e-5, 1e6], 'fewer than 400 terms of the series'),
      place: {
        ...number('x', 'place, 0 in the middle, 1 at the surface', '1', [0, 1], 'by definition'),
        usual: 0,
      },
    },
    gives: {
      centre: share('θ_0', 'share of the difference left in the middle'),
      surface: share('θ_1', 'share left at the surface'),
      mean: share('θ_m', 'share left as a mean over the volume'),
      place: share('θ_x', 'share left at the place'),
      terms: share('n', 'terms of the series that were summed'),
    },
    compute: (given) => {
      const found = transient(
        shapes[given.shape],
        given.surface === 'held' ? null : given.biot,
        given.fourier,
      );
      const { centre, surface, mean, terms } = found;
      return { centre, surface, mean, place: found.at(given.place), terms };
    },
  }),
  relation({
    name: 'heisler-term',
    title: 'First eigenvalue and coefficient of a slab, cylinder or sphere',
    page: 'heat-analytic',
    source: 'M. P. Heisler 1947, Trans. ASME 69, 227-236 (from memory)',
    takes: { shape, biot },
    gives: { zeta: share('ζ_1', 'first eigenvalue'), coefficient: share('C_1', 'its coefficient') },
    compute: (given) => ({ ...heislerTerm(shapes[given.shape], given.biot) }),
  }),
  relation({
    name: 'bare-core-warming',
    title: 'Warming of a bare core in air: its middle, its surface, and the two as one',
    page: 'heat-analytic',
    source: `${carslaw}, 7.7`,
    takes: {
      diameter: number('d', 'diameter', 'm', [0.005, 1], 'cores of the trade, no source'),
      time: number('t', 'time in the air', 'min', [0.05, 1e5]),
      start: celsius('T_0', 'temperature at the start'),
      ambient: celsius('T_∞', 'temperature of the air'),
      film: { ...film, usual: 8 },
      conductivity: { ...conductivity, usual: 2.32 },
      density: { ...density, usual: 917 },
      heatCapacity: { ...heatCapacity, usual: 1950 },
    },
    gives: {
      centre: { symbol: 'T_c', what: 'temperature of the middle', unit: 'Cel' },
      surface: { symbol: 'T_s', what: 'temperature of the surface', unit: 'Cel' },
      lumped: { symbol: 'T_l', what: 'temperature of a core without differences inside', unit: 'Cel' },
      fourier: share('Fo', 'Fourier number'),
      biot: share('Bi', 'Biot number'),
    },
    caution:
      'Computed, not measured; nothing melts in this formula, so a result above 0 °C means ice that is melting. Wind and sun warm a core faster.',
    compute: (given) => {
      const radius = given.diameter / 2;
      const seconds = 60 * given.time;
      const alpha = diffusivity(given.conductivity, given.density, given.heatCapacity);
      const [bi, fo] = [(given.film * radius) / given.conductivity, (alpha * seconds) / radius ** 2];
      const found = transient(cylinder, bi, fo);
      const body = {
        mass: given.density * Math.PI * radius ** 2,
        heatCapacity: given.heatCapacity,
        conductance: given.film * 2 * Math.PI * radius,
      };
      const at = (theta: number) => given.ambient + (given.start - given.ambient) * theta;
      return {
        centre: at(found.centre),
        surface: at(found.surface),
        lumped: at(lumped(body).left(seconds)),
        fourier: fo,
        biot: bi,
      };
    },
  }),
  relation({
    name: 'half-space-warming',
    title: 'Share of a change at its surface that a thick body has felt',
    page: 'heat-analytic',
    source: `${carslaw}, 2.4 and 2.7`,
    takes: {
      surface: { kind: 'choice', symbol: '', what: 'surface held, or in air', options: ['held', 'in air'] },
      depth: number('z', 'depth below the surface', 'm', [0, 1e4]),
      time: number('t', 'time since the change', 'h', [0, 1e9]),
      diffusivity: thermal,
      film: { ...film, usual: 10 },
      conductivity: { ...conductivity, usual: 2.3 },
    },
    gives: { felt: share('1 - θ', 'share of the change that has arrived') },
    compute: ({ surface, depth, time, diffusivity: alpha, film: h, conductivity: k }) => {
      const seconds = 3600 * time;
      return {
        felt:
          surface === 'held' ? surfaceHeld(depth, seconds, alpha) : surfaceInAir(depth, seconds, alpha, h, k),
      };
    },
  }),
  relation({
    name: 'damping-depth',
    title: 'Depth that a daily or yearly wave of temperature reaches',
    page: 'heat-analytic',
    source: `${carslaw}, 2.6`,
    takes: {
      diffusivity: thermal,
      period: number('P', 'period of the wave', 'd', [1e-4, 1e8]),
      depth: { ...number('z', 'depth', 'm', [0, 1e4]), usual: 0 },
    },
    gives: {
      dampingDepth: { symbol: 'd', what: 'depth where the swing is down to 1/e', unit: 'm' },
      amplitude: share('A/A_0', 'swing at that depth over swing at the surface'),
      lag: { symbol: 'Δt', what: 'how much later the peak comes there', unit: 'd' },
    },
    compute: (given) => {
      const wave = dampedWave(given.diffusivity, day * given.period, given.depth);
      return { ...wave, lag: wave.lag / day };
    },
  }),
  relation({
    name: 'lumped-box',
    title: 'Time to a limit of a box whose inside is everywhere as warm',
    page: 'boxed-core',
    source: 'textbook (from memory)',
    takes: {
      mass: number('m', 'mass inside', 'kg', [1e-6, 1e9]),
      heatCapacity: { ...heatCapacity, usual: 1950 },
      area: number('A', 'area of the wall', 'm2', [1e-6, 1e6]),
      thickness: number('d', 'thickness of the wall', 'm', [1e-6, 100]),
      conductivity: { ...conductivity, symbol: 'λ', what: 'conductivity of the wall' },
      start: celsius('T_0', 'temperature at the start'),
      ambient: celsius('T_∞', 'temperature outside'),
      limit: { ...celsius('T_lim', 'limit'), usual: -15 },
    },
    gives: {
      conductance: { symbol: 'UA', what: 'heat through the wall a degree', unit: 'W/K' },
      timeConstant: { symbol: 'τ', what: 'time in which the difference falls to 1/e', unit: 'h' },
      time: { symbol: 't', what: 'time to the limit; none: never', unit: 'h' },
    },
    caution:
      'Computed, not measured, and an upper bound: what lies at the wall is warm before the rest. The silence of a logger is no sign of cold.',
    compute: (given) => {
      const conductance = wallConductance(given.area, given.thickness, given.conductivity);
      const body = { mass: given.mass, heatCapacity: given.heatCapacity, conductance };
      const [start, outside, limit] = [given.start, given.ambient, given.limit].map(inKelvin);
      const time = lumpedTimeTo(body, { start, outside, limit });
      return {
        conductance,
        timeConstant: lumped(body).timeConstant / 3600,
        time: time === null ? null : time / 3600,
      };
    },
  }),
  relation({
    name: 'layered-conduction',
    title: 'Warming of layers that do not melt, by finite volumes',
    page: 'heat-finite-volumes',
    source:
      'S. V. Patankar 1980, Numerical Heat Transfer and Fluid Flow, chapter 4 (from memory); in time R. Alexander 1977, SIAM J. Numer. Anal. 14, 1006-1021 (from memory)',
    takes: {
      shape,
      thicknesses: {
        ...number('d_i', 'thicknesses of the layers, from the middle to the outside', 'm', [1e-4, 100]),
        kind: 'numbers',
      },
      conductivities: { ...conductivity, kind: 'numbers', symbol: 'k_i', what: 'their conductivities' },
      densities: { ...density, kind: 'numbers', symbol: 'ρ_i', what: 'their densities' },
      heatCapacities: { ...heatCapacity, kind: 'numbers', symbol: 'c_i', what: 'their specific heats' },
      film: { ...film, range: [0.001, 1e6] },
      start: celsius('T_0', 'temperature at the start, the same everywhere'),
      ambient: celsius('T_∞', 'temperature of the air'),
      irradiance: {
        ...number('I', 'sunlight, as a mean over the surface', 'W/m2', [0, 2000], 'more than the sun gives'),
        usual: 0,
      },
      albedo: { ...number('a', 'share of it that is thrown back', '1', [0, 1], 'by definition'), usual: 0 },
      time: number('t', 'time', 'h', [1e-3, 1e6]),
    },
    gives: {
      middle: { symbol: 'T_c', what: 'temperature of the innermost volume', unit: 'Cel' },
      faces: { symbol: 'T_i', what: 'temperatures at the outer faces of the layers', unit: 'Cel' },
      heat: { symbol: 'Q', what: 'heat taken up (of 1 m2, 1 m, or the sphere)', unit: 'kJ' },
    },
    compute: (given) => {
      const { thicknesses, conductivities, densities, heatCapacities } = given;
      for (const [name, list] of Object.entries({ conductivities, densities, heatCapacities }))
        if (list.length !== thicknesses.length)
          throw new QuantityError(
            'layered-conduction',
            `there are ${list.length} ${name}`,
            `as many as thicknesses, ${thicknesses.length}`,
          );
      const grid = layeredGrid(
        given.shape,
        thicknesses.map((thickness, i) => ({
          thickness,
          medium: plainMedium(conductivities[i], densities[i], heatCapacities[i]),
          cells: 24,
        })),
      );
      const outside = {
        temperature: () => inKelvin(given.ambient),
        film: given.film,
        irradiance: () => given.irradiance,
        albedo: given.albedo,
      };
      const until = 3600 * given.time;
      const run = { grid, outside, start: inKelvin(given.start), step: until / 200, until };
      const end = conduct(run, () => false);
      return {
        middle: end.temperatures[0] - zero,
        faces: thicknesses.map((_, i) => end.faceOf(i) - zero),
        heat: end.taken / 1000,
      };
    },
  }),
  ...boxRelations,
  relation({
    name: 'mean-kinetic-temperature',
    title: 'Mean kinetic temperature: an extra, not meant for frozen goods',
    page: 'mean-kinetic-temperature',
    source: 'J. D. Haynes 1971, J. Pharm. Sci. 60, 927-929; ICH Q1A(R2) (both from memory)',
    takes: {
      temperatures: { ...celsius('T_i', 'temperatures'), kind: 'numbers' },
      durations: {
        ...number('w_i', 'how long each lasted', 'h', [0, 1e7], 'no less than nothing'),
        kind: 'numbers',
      },
      activation: {
        ...number('E/R', 'activation energy over the gas constant', 'K', [10, 1e6]),
        usual: usualActivation,
      },
    },
    gives: { temperature: { symbol: 'T_K', what: 'mean kinetic temperature', unit: 'Cel' } },
    caution:
      'Made for goods above freezing; USP <1079.2> says that it is not for frozen ones. For ice look at the time above the limit, the peak, and the degree-hours.',
    compute: (given) => ({
      temperature:
        meanKineticTemperature(given.temperatures.map(inKelvin), given.durations, given.activation) - zero,
    }),
  }),
];
