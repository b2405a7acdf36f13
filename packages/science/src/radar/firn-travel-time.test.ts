import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { herronLangway } from '../firn/index.ts';
import { depthOfTravelTime, firnTravelTime, firnTravelTimeAll } from './firn-travel-time.ts';
import { speedInFirn } from './permittivity.ts';

const anySite = fc.record({
  temperature: fc.double({ min: 210, max: 270, noNaN: true }),
  accumulation: fc.double({ min: 0.02, max: 2, noNaN: true }),
  surfaceDensity: fc.double({ min: 250, max: 700, noNaN: true }),
});

describe('travel time in firn', () => {
  it('is what an independent computation gives for -28.5 °C, 0.25 m w.e./a, 340 kg/m3', () => {
    // recomputed in Python: m, ns
    const column = herronLangway({ temperature: 244.65, accumulation: 0.25, surfaceDensity: 340 });
    for (const [depth, time] of [
      [10, 90.16806],
      [50, 501.43334],
      [100, 1064.8575],
    ])
      expect(firnTravelTime(column, depth) * 1e9).toBeCloseTo(time, 4);
  });

  it('in closed form is the integral of slowness over the model’s own density', () => {
    fc.assert(
      fc.property(anySite, fc.double({ min: 2, max: 130, noNaN: true }), (site, depth) => {
        const column = herronLangway(site);
        // Simpson on either side of the bend
        const bend = Math.min(depth, column.depth550);
        let time = 0;
        for (const [from, to] of [
          [0, bend],
          [bend, depth],
        ]) {
          const n = 400;
          const h = (to - from) / n;
          for (let i = 0; i <= n; i++) {
            const weight = i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2;
            time += (weight * h * 2) / 3 / speedInFirn(column.density(from + i * h));
          }
        }
        expect(Math.abs(firnTravelTime(column, depth) / time - 1)).toBeLessThan(1e-8);
      }),
      { numRuns: 50 },
    );
  });

  it('leads back to its depth', () => {
    fc.assert(
      fc.property(anySite, fc.double({ min: 0, max: 3000, noNaN: true }), (site, depth) => {
        const column = herronLangway(site);
        expect(Math.abs(depthOfTravelTime(column, firnTravelTime(column, depth)) - depth)).toBeLessThan(1e-6);
      }),
    );
  });

  it('for many depths is the same as one by one', () => {
    const column = herronLangway({ temperature: 250, accumulation: 0.3, surfaceDensity: 360 });
    const depths = [0, 3.5, 70];
    expect([...firnTravelTimeAll(column, depths, new Float64Array(3))]).toEqual(
      depths.map((depth) => firnTravelTime(column, depth)),
    );
    expect(() => firnTravelTimeAll(column, depths, new Float64Array(2))).toThrow(/room for 2 results/);
  });

  it('refuses a time that no ice takes, and one that is not a number', () => {
    const column = herronLangway({ temperature: 250, accumulation: 0.3, surfaceDensity: 360 });
    expect(() => depthOfTravelTime(column, 1)).toThrow(/travel time is 1 s/);
    expect(() => depthOfTravelTime(column, Number.NaN)).toThrow(/travel time is NaN s/);
    expect(() => firnTravelTime(column, -2)).toThrow(/depth is -2 m/);
  });
});
