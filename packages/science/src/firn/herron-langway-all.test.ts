import { describe, expect, it } from 'vitest';
import { herronLangway } from './herron-langway.ts';
import { firnAgeAll, firnDensityAll, firnWaterAll } from './herron-langway-all.ts';

const column = herronLangway({ temperature: 253.15, accumulation: 0.41, surfaceDensity: 360 });
const depths = Float64Array.from({ length: 10_000 }, (_, i) => ((i * 7919) % 10_000) * 0.012);

describe('Herron & Langway 1980 at many depths', () => {
  for (const [name, all, one] of [
    ['density', firnDensityAll, column.density],
    ['age', firnAgeAll, column.age],
    ['water equivalent', firnWaterAll, column.waterEquivalent],
  ] as const)
    it(`${name}: each depth as by itself, in any order, into the array that was given`, () => {
      const out = new Float64Array(depths.length);
      expect(all(column, depths, out)).toBe(out);
      for (const i of [0, 1, 777, 5000, 9999]) expect(out[i]).toBe(one(depths[i]));
    });

  it('may write over the depths themselves', () => {
    const own = Float64Array.of(3, 30, 90);
    firnAgeAll(column, own, own);
    expect([...own]).toEqual([3, 30, 90].map(column.age));
  });

  it('refuses too little room and a depth above the surface', () => {
    expect(() => firnAgeAll(column, depths, new Float64Array(2))).toThrow(
      /room for 2 results; allowed: 10000/,
    );
    expect(() => firnWaterAll(column, Float64Array.of(1, -1), new Float64Array(2))).toThrow(/depth is -1 m/);
    expect(() => firnDensityAll(column, Float64Array.of(Number.NaN), new Float64Array(1))).toThrow(/NaN/);
  });
});
