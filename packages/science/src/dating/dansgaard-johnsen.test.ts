import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dansgaardJohnsen } from './dansgaard-johnsen.ts';
import { describeFlowModel, flows } from './flow-model.suite.ts';
import { nye } from './nye.ts';

describe('age by Dansgaard & Johnsen 1969', () => {
  // recomputed and equal to quadrature; H, a, h, z above the bed, age, layer
  it.each([
    [1367, 0.35, 400, 1267, 298.7033, 0.32000857],
    [1367, 0.35, 400, 367, 6480.8871, 0.05049395],
    [1367, 0.35, 400, 100, 25886.9751, 0.00374893],
    [3085, 0.19, 1000, 500, 49562.2416, 0.00918762],
    [500, 0.4, 125, 125, 2128.3392, 0.05714286],
    [500, 0.4, 125, 50, 5409.5892, 0.00914286],
  ])(
    'of %d m, %d m a year, kink at %d m, %d m above the bed: %d a, %d m a year',
    (h, a, kink, z, age, layer) => {
      const model = dansgaardJohnsen({ thickness: h, accumulation: a, kink });
      expect(model.age(h - z)).toBeCloseTo(age, 4);
      expect(model.layer(h - z)).toBeCloseTo(layer, 8);
    },
  );

  const shares = fc.double({ min: 0, max: 0.9, noNaN: true });
  describeFlowModel(
    fc.tuple(flows, shares).map(([flow, k]) => dansgaardJohnsen({ ...flow, kink: k * flow.thickness })),
  );

  it('without a kink is Nye’s, and comes to it as the kink goes down', () =>
    fc.assert(
      fc.property(flows, fc.double({ min: 0, max: 0.98, noNaN: true }), (flow, share) => {
        const depth = share * flow.thickness;
        const wanted = nye(flow);
        const none = dansgaardJohnsen({ ...flow, kink: 0 });
        expect(Math.abs(none.age(depth) - wanted.age(depth))).toBeLessThan(1e-9 * (1 + wanted.age(depth)));
        expect(none.layer(depth)).toBeCloseTo(wanted.layer(depth), 12);
        const low = dansgaardJohnsen({ ...flow, kink: 1e-5 * flow.thickness });
        expect(Math.abs(low.age(depth) - wanted.age(depth))).toBeLessThan(1e-3 * (1e-3 + wanted.age(depth)));
      }),
    ));

  it('goes on without a step at the kink', () => {
    const model = dansgaardJohnsen({ thickness: 600, accumulation: 0.3, kink: 150 });
    expect(model.age(450 + 1e-7)).toBeCloseTo(model.age(450), 4);
    expect(model.layer(450 + 1e-7)).toBeCloseTo(model.layer(450), 8);
  });

  it('refuses a kink above the surface or below the bed', () => {
    const flow = { thickness: 600, accumulation: 0.3 };
    expect(() => dansgaardJohnsen({ ...flow, kink: 601 })).toThrow(/height of the kink|kink is 601 m/);
    expect(() => dansgaardJohnsen({ ...flow, kink: -1 })).toThrow(/allowed: 0 to/);
  });
});
