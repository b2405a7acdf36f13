import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { speedInFirn } from './permittivity.ts';
import { depthInLayers, travelThrough, travelTime } from './travel-time.ts';

const layers = { thicknesses: [2, 3, 5, 10, 20, 60], densities: [350, 420, 500, 600, 720, 890] };
const anyLayers = fc
  .array(
    fc.tuple(fc.double({ min: 0.1, max: 40, noNaN: true }), fc.double({ min: 100, max: 917, noNaN: true })),
    { minLength: 1, maxLength: 12 },
  )
  .map((all) => ({ thicknesses: all.map(([one]) => one), densities: all.map(([, one]) => one) }));

describe('two-way travel time', () => {
  it('through six layers is what an independent computation gives', () => {
    // recomputed in Python: 100 m, 78.26 m w.e., 1108.29806 ns, 180.45687 m/us
    const { depth, water, time, meanSpeed } = travelThrough(layers);
    expect(depth).toBe(100);
    expect(water).toBeCloseTo(78.26, 12);
    expect(time * 1e9).toBeCloseTo(1108.29806, 5);
    expect(meanSpeed / 1e6).toBeCloseTo(180.45687, 5);
    expect(travelTime(100, 78.26)).toBeCloseTo(time, 18);
  });

  it('in closed form is the sum over layers at the speed of each', () => {
    fc.assert(
      fc.property(anyLayers, (some) => {
        const sum = some.thicknesses.reduce(
          (all, thickness, i) => all + (2 * thickness) / speedInFirn(some.densities[i]),
          0,
        );
        expect(Math.abs(travelThrough(some).time / sum - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it('leads back to its depth, in any layer and below the last one', () => {
    fc.assert(
      fc.property(anyLayers, fc.double({ min: 0, max: 1.5, noNaN: true }), (some, share) => {
        const whole = travelThrough(some);
        const depth = depthInLayers(some, share * whole.time);
        // the same way by the layers above that depth
        let [left, time] = [depth, 0];
        some.thicknesses.forEach((thickness, i) => {
          const last = i === some.thicknesses.length - 1;
          const through = last ? left : Math.min(left, thickness);
          time += (2 * through) / speedInFirn(some.densities[i]);
          left -= through;
        });
        expect(Math.abs(time - share * whole.time)).toBeLessThan(1e-12 * (1e-9 + whole.time) + 1e-18);
      }),
    );
  });

  it('refuses water that is heavier than ice of that thickness, layers without density, a negative time', () => {
    expect(() => travelTime(10, 9.6)).toThrow(/water equivalent is 9.6 m w.e.; allowed: 0 to 9.5/);
    expect(() => travelThrough({ thicknesses: [1, 2], densities: [400] })).toThrow(
      /2 layers have 1 densities/,
    );
    expect(() => travelThrough({ thicknesses: [1, 0], densities: [400, 500] })).toThrow(
      /thickness of layer 2 is 0 m/,
    );
    expect(() => depthInLayers(layers, -1e-9)).toThrow(/travel time is -1e-9 s/);
    expect(() => depthInLayers(layers, Number.NaN)).toThrow(/travel time is NaN s/);
  });
});
