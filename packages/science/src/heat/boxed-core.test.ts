import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxImprovement } from './box-improvement.ts';
import type { BoxedCore } from './box-model.ts';
import { boxForecast, boxWarming } from './boxed-core.ts';
import { cylinder } from './cylinder.ts';
import { insulations } from './insulation.ts';
import { transient } from './transient.ts';
import { conduct } from './volumes/conduct.ts';
import { layeredGrid } from './volumes/grid.ts';
import { iceMedium, plainMedium } from './volumes/medium.ts';

const foam = insulations['EPS, 30 kg/m3'];
const box = {
  ice: 42,
  density: 900,
  length: 1.05,
  snow: { thickness: 0.06, density: 340 },
  wall: { ...foam, thickness: 0.05 },
  film: 8,
} as const satisfies BoxedCore;
const bare = { ...box, snow: null, wall: null };
const hours = (time: number | null) => Number(time) / 3600;

const boxes = fc
  .record({
    ice: fc.double({ min: 5, max: 200, noNaN: true }),
    density: fc.double({ min: 500, max: 917, noNaN: true }),
    length: fc.double({ min: 0.5, max: 2, noNaN: true }),
    packing: fc.double({ min: 0.01, max: 0.15, noNaN: true }),
    loose: fc.double({ min: 200, max: 450, noNaN: true }),
    wall: fc.double({ min: 0.02, max: 0.12, noNaN: true }),
    film: fc.double({ min: 4, max: 30, noNaN: true }),
  })
  .map(
    ({ ice, density, length, packing, loose, wall, film }): BoxedCore => ({
      ice,
      density,
      length,
      snow: { thickness: packing, density: loose },
      wall: { ...foam, thickness: wall },
      film,
    }),
  );

describe('a box of core', () => {
  it('bare, warms as the series for a cylinder says (conductivity and heat of ice at -20)', () => {
    // 42 kg of 917 kg/m3 over 1.05 m; k 2.3217 and c 1955.43 at -20 degrees C hold from -22 to -18 to 1 %
    const core = { ...bare, density: 917 };
    const radius = Math.sqrt(42 / (917 * 1.05 * Math.PI));
    const { core: outer, middle } = boxWarming(core, 251.15, { temperature: 263.15 }, 255.15);
    const fourier = (time: number | null) => ((2.3217 / (917 * 1955.43)) * Number(time)) / radius ** 2;
    const biot = (8 * radius) / 2.3217;
    // (limit - air)/(start - air) is 8/12 there
    expect(Math.abs(transient(cylinder, biot, fourier(outer)).surface - 8 / 12)).toBeLessThan(0.003);
    expect(Math.abs(transient(cylinder, biot, fourier(middle)).centre - 8 / 12)).toBeLessThan(0.003);
  });

  it('passes its limit within 0.5 % of when four times as many volumes and steps say', () => {
    const { core } = boxWarming(box, 248.15, { temperature: 278.15 }, 258.15);
    const bundle = Math.sqrt(42 / (900 * 1.05 * Math.PI));
    const outer = bundle + 0.11;
    const grid = layeredGrid('cylinder', [
      { thickness: bundle, medium: iceMedium(900), cells: 64 },
      { thickness: 0.06, medium: iceMedium(340), cells: 48 },
      {
        thickness: 0.05,
        medium: plainMedium(foam.conductivity, foam.density, foam.heatCapacity),
        cells: 32,
        area: 1 + outer / 1.05,
      },
    ]);
    let passed = 0;
    const outside = { temperature: () => 278.15, film: 8 };
    conduct({ grid, outside, start: 248.15, step: 60, until: 4e5 }, ({ time, faceOf }) => {
      passed = time;
      return faceOf(0) >= 258.15;
    });
    expect(Math.abs(Number(core) / passed - 1)).toBeLessThan(5e-3);
  });

  it('any box: the edge passes before the core, the core before its middle; lumped bounds the edge', () => {
    fc.assert(
      fc.property(boxes, fc.double({ min: -8, max: 25, noNaN: true }), (any, ambient) => {
        const found = boxWarming(any, 247.15, { temperature: 273.15 + ambient }, 258.15);
        expect(Number(found.edge)).toBeLessThanOrEqual(Number(found.core));
        expect(Number(found.core)).toBeLessThanOrEqual(Number(found.middle));
        // but for the minutes until the cold wall lets heat through
        expect(hours(found.edge)).toBeLessThanOrEqual(hours(found.lumped) + 0.5);
      }),
      { numRuns: 40 },
    );
  });

  it('any box: a thicker wall, more packing, colder air never make it shorter', () => {
    fc.assert(
      fc.property(boxes, (any) => {
        const time = (one: BoxedCore, air = 281.15) =>
          Number(boxWarming(one, 246.15, { temperature: air }, 258.15).core);
        const now = time(any);
        expect(time({ ...any, wall: { ...foam, thickness: any.wall!.thickness * 1.3 } })).toBeGreaterThan(
          now,
        );
        const snow = { ...any.snow!, thickness: any.snow!.thickness * 1.3 };
        expect(time({ ...any, snow })).toBeGreaterThan(now);
        expect(time(any, 279.15)).toBeGreaterThan(now);
      }),
      { numRuns: 15 },
    );
  });

  it('the sun counts as air that is warmer by (1 - albedo) I/h', () => {
    const sun = boxWarming(box, 248.15, { temperature: 265.15, irradiance: 160, albedo: 0.4 }, 258.15);
    const warm = boxWarming(box, 248.15, { temperature: 277.15 }, 258.15);
    expect(sun.core).toBeCloseTo(Number(warm.core), 6);
    expect(sun.lumped).toBeCloseTo(Number(warm.lumped), 6);
    const lying = boxWarming(bare, 248.15, { temperature: 265.15, irradiance: 160, albedo: 0.4 }, 258.15);
    expect(lying.core).toBeCloseTo(Number(boxWarming(bare, 248.15, { temperature: 277.15 }, 258.15).core), 6);
  });

  it('takes the outside of the real box: twice the area lets in about twice the heat', () => {
    const round = boxWarming(box, 248.15, { temperature: 278.15 }, 258.15);
    const large = boxWarming({ ...box, area: 2 * round.area }, 248.15, { temperature: 278.15 }, 258.15);
    expect(large.area).toBeCloseTo(2 * round.area, 12);
    expect(large.conductance).toBeCloseTo(2 * round.conductance, 12);
    const ratio = Number(large.lumped) / Number(round.lumped);
    expect(ratio).toBeGreaterThan(0.5);
    expect(ratio).toBeLessThan(0.53);
    expect(Number(large.core)).toBeLessThan(Number(round.core));
    const lying = (area: number) => boxWarming({ ...bare, area }, 248.15, { temperature: 263.15 }, 258.15);
    expect(Number(lying(1.2).core)).toBeLessThan(Number(lying(0.8).core));
  });

  it('is past at once where it starts beyond the limit, and never passes where the air does not', () => {
    const at = (start: number, air: number) => boxWarming(box, start, { temperature: air }, 258.15);
    expect(at(259.15, 270)).toMatchObject({ core: 0, middle: 0, edge: 0, lumped: 0 });
    expect(at(248.15, 258.15)).toMatchObject({ core: null, middle: null, edge: null, lumped: null });
    expect(at(248.15, 240)).toMatchObject({ core: null, lumped: null });
  });

  it('holds on at 0: with packing that melts, the core passes -2 long after dry foam of that warmth would let it', () => {
    const wet = { ...box, wall: null, snow: { thickness: 0.12, density: 450 } };
    const { core, melted } = boxWarming(wet, 263.15, { temperature: 285.15 }, 271.15);
    expect(melted).toBeGreaterThan(0.05);
    expect(melted).toBeLessThan(1);
    // the same packing without its heat of melting: a plain medium of its conductivity and heat capacity at -5
    const bundle = Math.sqrt(42 / (900 * 1.05 * Math.PI));
    const grid = layeredGrid('cylinder', [
      { thickness: bundle, medium: iceMedium(900), cells: 16 },
      { thickness: 0.12, medium: plainMedium(iceMedium(450).conductivity(268.15), 450, 2060), cells: 12 },
    ]);
    let passed = 0;
    const outside = { temperature: () => 285.15, film: 8 };
    conduct({ grid, outside, start: 263.15, step: 120, until: 4e5 }, ({ time, faceOf }) => {
      passed = time;
      return faceOf(0) >= 271.15;
    });
    expect(Number(core)).toBeGreaterThan(1.5 * passed);
  });

  it('refuses what no box can be', () => {
    const at = (one: BoxedCore) => () => boxWarming(one, 248.15, { temperature: 270 }, 258.15);
    expect(at({ ...box, ice: -1 })).toThrow(/mass of ice is -1 kg/);
    expect(at({ ...box, density: 950 })).toThrow(/density is 950/);
    expect(at({ ...box, area: 0.01 })).toThrow(/outer area is 0\.01 m2/);
    expect(at({ ...box, film: Number.NaN })).toThrow(/coefficient is NaN/);
    expect(() => boxWarming(box, 248.15, { temperature: 270 }, 274)).toThrow(/limit is 274 K/);
    expect(() => boxWarming(box, 280, { temperature: 270 }, 258)).toThrow(/start is 280 K/);
  });
});

describe('a box through changing weather', () => {
  it('passes its limit when boxWarming says so, where the weather does not change', () => {
    const { core } = boxWarming(box, 248.15, { temperature: 278.15 }, 258.15);
    const steady = { temperature: () => 278.15 };
    const forecast = boxForecast(box, 248.15, steady, { step: 300, until: 20 * 3600 });
    const at = forecast.core.findIndex((temperature) => temperature >= 258.15);
    expect(Math.abs(forecast.times[at] - Number(core))).toBeLessThan(0.01 * Number(core));
  });

  it('swings less than the air does, and the core less than the edge', () => {
    const wave = { temperature: (time: number) => 253.15 + 10 * Math.sin((2 * Math.PI * time) / 86_400) };
    const forecast = boxForecast(box, 253.15, wave, { step: 900, until: 10 * 86_400 });
    const swing = (series: Float64Array) => {
      const last = series.slice(-96);
      return (Math.max(...last) - Math.min(...last)) / 2;
    };
    expect(swing(forecast.edge)).toBeLessThan(5);
    expect(swing(forecast.core)).toBeLessThan(0.8 * swing(forecast.edge));
    expect(swing(forecast.middle)).toBeLessThanOrEqual(swing(forecast.core));
  });
});

describe('what more would buy', () => {
  it('is the same box made anew, with more packing or wall, grown outside', () => {
    const weather = { temperature: 281.15 };
    const more = { snow: 0.05, wall: 0.02 };
    const found = boxImprovement(box, 248.15, weather, 258.15, more);
    const time = (one: BoxedCore) => boxWarming(one, 248.15, weather, 258.15).core;
    expect(found.now).toBe(time(box));
    expect(found.moreSnow).toBe(time({ ...box, snow: { ...box.snow, thickness: 0.11 } }));
    expect(found.moreWall).toBe(time({ ...box, wall: { ...box.wall, thickness: 0.07 } }));
    const radius = Math.sqrt(42 / (900 * 1.05 * Math.PI)) + 0.11;
    const real = { ...box, area: 2.4 };
    const grown = boxImprovement(real, 248.15, weather, 258.15, more);
    const wall = { ...box.wall, thickness: 0.07 };
    const area = (2.4 * (radius + 0.02)) / radius;
    expect(Number(grown.moreWall)).toBeCloseTo(Number(time({ ...real, wall, area })), 6);
  });

  it('of a wall is nothing where there is none; of packing is something where there was none', () => {
    const found = boxImprovement(bare, 248.15, { temperature: 270 }, 258.15, { snow: 0.05, wall: 0.03 });
    expect(found.moreWall).toBe(found.now);
    expect(Number(found.moreSnow)).toBeGreaterThan(Number(found.now));
    const cold = boxImprovement(box, 248.15, { temperature: 250 }, 258.15, { snow: 0.04, wall: 0.03 });
    expect(cold).toEqual({ now: null, moreSnow: null, moreWall: null });
  });
});
