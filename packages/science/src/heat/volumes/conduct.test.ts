import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cylinder } from '../cylinder.ts';
import { dampedWave } from '../damping-depth.ts';
import { surfaceInAir } from '../semi-infinite.ts';
import type { Shape } from '../shape.ts';
import { slab } from '../slab.ts';
import { sphere } from '../sphere.ts';
import { transient } from '../transient.ts';
import { conduct, type Outside } from './conduct.ts';
import { layeredGrid } from './grid.ts';
import { iceMedium, plainMedium } from './medium.ts';

const nothing = () => false;
const total = (volumes: Float64Array, heat: Float64Array) =>
  heat.reduce((sum, value, i) => sum + value * volumes[i], 0);

/** One material, from 248.15 K in air of 268.15 K; largest error against the series, in shares of the difference. */
const errorOf = (shape: Shape, cells: number, steps: number): number => {
  const [k, density, capacity, size, film] = [2.32, 917, 1950, 0.05, 60];
  const grid = layeredGrid(shape.name, [
    { thickness: size, medium: plainMedium(k, density, capacity), cells },
  ]);
  const until = 1800;
  const outside: Outside = { temperature: () => 268.15, film };
  const end = conduct({ grid, outside, start: 248.15, step: until / steps, until }, nothing);
  const exact = transient(shape, (film * size) / k, (k / (density * capacity)) * (until / size ** 2));
  return Math.max(
    ...Array.from(grid.places, (place, i) =>
      Math.abs((268.15 - end.temperatures[i]) / 20 - exact.at(place / size)),
    ),
    Math.abs((268.15 - end.faceOf(0)) / 20 - exact.surface),
  );
};

describe('finite volumes against the analytic series', () => {
  for (const shape of [slab, cylinder, sphere]) {
    it(`${shape.name}: halving volumes and steps quarters the error (second order), to 3e-5 of the difference at 80`, () => {
      const errors = [20, 40, 80].map((n) => errorOf(shape, n, n));
      for (const [i, order] of [0, 1].map((i) => [i, Math.log2(errors[i] / errors[i + 1])] as const))
        expect(order, `order after refinement ${i + 1}`).toBeGreaterThan(1.8);
      expect(errors[2]).toBeLessThan(3e-5);
    });
  }

  it('second order in time alone: with 400 volumes, halving the step quarters what differs', () => {
    const at = (steps: number) => errorOf(cylinder, 400, steps);
    const finest = at(400);
    const [coarse, fine] = [at(10) - finest, at(20) - finest];
    expect(Math.log2(coarse / fine)).toBeGreaterThan(1.7);
  });

  it('follows a thick body in air (Carslaw & Jaeger 2.7) as long as the far end has felt nothing', () => {
    const [k, density, capacity] = [2.3, 917, 1930];
    const grid = layeredGrid('slab', [
      { thickness: 0.6, medium: plainMedium(k, density, capacity), cells: 600 },
    ]);
    const outside = { temperature: () => 263.15, film: 10 };
    const end = conduct({ grid, outside, start: 243.15, step: 6, until: 3600 }, nothing);
    for (const i of [500, 550, 580, 599]) {
      const depth = 0.6 - grid.places[i];
      const felt = surfaceInAir(depth, 3600, k / (density * capacity), 10, k);
      expect(Math.abs((end.temperatures[i] - 243.15) / 20 - felt)).toBeLessThan(2e-5);
    }
  });

  it('damps a daily wave as the closed form says, after the start is forgotten', () => {
    const [k, density, capacity] = [0.3, 350, 2000];
    const depth = 0.25;
    const { amplitude, lag } = dampedWave(k / (density * capacity), 86_400, depth);
    const grid = layeredGrid('slab', [
      { thickness: 1.2, medium: plainMedium(k, density, capacity), cells: 240 },
    ]);
    const outside = { temperature: (time: number) => 258.15 + 8 * Math.sin((2 * Math.PI * time) / 86_400) };
    // the middle of a volume
    const cell = grid.places.findIndex((place) => Math.abs(1.2 - place - depth) < 0.0026);
    const at = 1.2 - grid.places[cell];
    let [highest, when] = [0, 0];
    conduct({ grid, outside, start: 258.15, step: 600, until: 30 * 86_400 }, ({ time, temperatures }) => {
      if (time > 29 * 86_400 && temperatures[cell] > highest) [highest, when] = [temperatures[cell], time];
      return false;
    });
    const shift = Math.exp(-(at - depth) / dampedWave(k / (density * capacity), 86_400).dampingDepth);
    expect(Math.abs((highest - 258.15) / 8 - amplitude * shift)).toBeLessThan(2e-3);
    expect(Math.abs((when - 29 * 86_400 - 21_600) / lag - 1)).toBeLessThan(0.03);
  });

  it('settles on what resistances in series give: two materials with a gap, in a cylinder', () => {
    const layers = [
      { thickness: 0.04, medium: plainMedium(2, 900, 2000), cells: 8 },
      { thickness: 0.03, medium: plainMedium(0.25, 350, 1900), cells: 6, contact: 0.02 },
      { thickness: 0.05, medium: plainMedium(0.035, 20, 1450), cells: 10, area: 1.2 },
    ];
    const grid = layeredGrid('cylinder', layers);
    // fed by sun: 180 W/m2 on a film of 9 W/m2/K, albedo 0.4, is air of 12 K more
    const outside = { temperature: () => 260, film: 9, irradiance: () => 180, albedo: 0.4 };
    const end = conduct({ grid, outside, start: 250, step: 3e5, until: 3e7 }, nothing);
    for (const temperature of end.temperatures) expect(temperature).toBeCloseTo(272, 6);
    expect(end.faceOf(2)).toBeCloseTo(272, 6);
  });
});

describe('heat is conserved', () => {
  interface Case {
    readonly shape: 'slab' | 'cylinder' | 'sphere';
    readonly size: number;
    readonly start: number;
    readonly air: number;
    readonly swing: number;
    readonly density: number;
    readonly film: number;
    readonly step: number;
  }
  /** What came in through the surface against what the volumes hold more, as a share of what went about. */
  const lost = ({ shape, size, start, air, swing, density, film, step }: Case): number => {
    const grid = layeredGrid(shape, [
      { thickness: size, medium: iceMedium(density), cells: 10 },
      { thickness: 0.7 * size, medium: iceMedium(300), cells: 8, contact: 0.01 },
      { thickness: 0.6 * size, medium: plainMedium(0.034, 20, 1450), cells: 6 },
    ]);
    const outside = { temperature: (time: number) => air + swing * Math.sin(time / 2e4), film };
    let first = Number.NaN;
    const end = conduct({ grid, outside, start, step, until: 40 * step }, ({ time, heat }) => {
      if (time === 0) first = total(grid.volumes, heat);
      return false;
    });
    const gained = total(grid.volumes, end.heat) - first;
    return Math.abs(gained - end.taken) / (Math.abs(first) + Math.abs(end.taken));
  };

  it('what came in through the surface is what the volumes hold more, to rounding, melting or not', () => {
    const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    const cases = fc.record({
      shape: fc.constantFrom('slab' as const, 'cylinder' as const, 'sphere' as const),
      size: between(0.002, 0.3),
      start: between(200, 273),
      air: between(230, 320),
      swing: between(0, 30),
      density: between(60, 917),
      film: between(0.5, 5000),
      step: between(1, 1e5),
    });
    fc.assert(
      fc.property(cases, (any) => {
        expect(lost(any)).toBeLessThan(1e-9);
      }),
      { numRuns: 100 },
    );
  });

  it('thin ice that melts within one step once sent the iteration below 0 K; it settles now', () => {
    const [air, start, swing, density] = [320, 239.58, 0, 60.5];
    const thin = { air, start, swing, density, shape: 'cylinder' as const, size: 0.002 };
    expect(lost({ ...thin, film: 361.8, step: 84.3 })).toBeLessThan(1e-9);
    expect(lost({ ...thin, film: 0.5, step: 1e5 })).toBeLessThan(1e-9);
  });
});

describe('ice stops at 0 degrees Celsius', () => {
  it('takes up the heat of melting there: thin ice in warm air stays at 0 until all of it is melted', () => {
    const grid = layeredGrid('slab', [{ thickness: 0.01, medium: iceMedium(900), cells: 1 }]);
    const outside = { temperature: () => 283.15, film: 20 };
    let [begun, done] = [Number.NaN, Number.NaN];
    conduct({ grid, outside, start: 263.15, step: 20, until: 20_000 }, ({ time, temperatures, heat }) => {
      const melted = grid.media[0].melted(heat[0]);
      if (melted > 0 && Number.isNaN(begun)) begun = time;
      if (melted === 1) done = time;
      else expect(temperatures[0]).toBeLessThanOrEqual(273.15);
      return melted === 1;
    });
    // 900 kg/m3 of 0.01 m take 3.00084 MJ/m2 to melt; 10 K over 1/20 and half of the ice (0.005/2.011) bring 190.526 W/m2
    expect(Math.abs(done - begun - 15_750)).toBeLessThan(60);
  });

  it('moves a melting front as Stefan and Neumann have it', () => {
    // ice at 0, its face held at +5, water with the conductivity of the ice here: exact for one conductivity
    const [k, above] = [2.0715, 5];
    const medium = iceMedium(917, 'Calonne 2019');
    const grid = layeredGrid('slab', [{ thickness: 0.1, medium, cells: 400 }]);
    const until = 6 * 3600;
    const outside = { temperature: () => 273.15 + above };
    const end = conduct({ grid, outside, start: 273.15, step: 60, until }, nothing);
    const melted = end.heat.reduce((sum, heat, i) => sum + medium.melted(heat) * grid.volumes[i], 0);
    // lambda e^(lambda^2) erf(lambda) = St/sqrt(pi); Neumann's solution (Carslaw & Jaeger 11.2, from memory),
    // solved with mpmath: St = 4219.4 * 5/333426.5 = 0.063273, lambda = 0.1760354
    const capacity = 917 * 4219.4;
    const front = 2 * 0.1760354 * Math.sqrt((k / capacity) * until);
    expect(Math.abs(melted / front - 1)).toBeLessThan(5e-3);
  });

  it('warms with time, never past the warmest around it', () => {
    const grid = layeredGrid('cylinder', [
      { thickness: 0.05, medium: iceMedium(880), cells: 12 },
      { thickness: 0.05, medium: iceMedium(320, 'Sturm 1997'), cells: 10 },
    ]);
    let before = new Float64Array(22).fill(243.15);
    const outside = { temperature: () => 270, film: 12 };
    conduct({ grid, outside, start: 243.15, step: 900, until: 2e5 }, ({ temperatures }) => {
      for (const [i, temperature] of temperatures.entries()) {
        expect(temperature).toBeGreaterThanOrEqual(before[i] - 1e-6);
        expect(temperature).toBeLessThanOrEqual(270 + 1e-6);
      }
      before = temperatures.slice();
      return false;
    });
  });
});

describe('what the solver refuses', () => {
  const grid = layeredGrid('slab', [{ thickness: 0.1, medium: plainMedium(1, 1000, 1000), cells: 4 }]);
  const run = { grid, outside: { temperature: () => 260 }, start: 250, step: 10, until: 100 };
  it('layers of no thickness, half volumes, starts, steps and outsides that are no numbers', () => {
    const medium = plainMedium(1, 1000, 1000);
    expect(() => layeredGrid('slab', [])).toThrow(/no layer/);
    expect(() => layeredGrid('slab', [{ thickness: 0, medium, cells: 3 }])).toThrow(/thickness is 0 m/);
    expect(() => layeredGrid('slab', [{ thickness: 1, medium, cells: 2.5 }])).toThrow(/whole number/);
    expect(() => conduct({ ...run, start: Number.NaN }, nothing)).toThrow(/start is NaN K/);
    expect(() => conduct({ ...run, step: 0 }, nothing)).toThrow(/step is 0 s/);
    expect(() => conduct({ ...run, outside: { temperature: () => -20 } }, nothing)).toThrow(
      /allowed: 150 to 400 K/,
    );
    expect(() => conduct({ ...run, outside: { ...run.outside, film: 5, albedo: 2 } }, nothing)).toThrow(
      /albedo is 2/,
    );
    expect(() => plainMedium(-1, 2, 3)).toThrow(/conductivity is -1/);
    expect(() => iceMedium(930)).toThrow(/50 to 917/);
  });
});
