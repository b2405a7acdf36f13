import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeFlowModel, flows } from './flow-model.suite.ts';
import { nye } from './nye.ts';
import { twoParameter } from './two-parameter.ts';

describe('age by the two-parameter model (Bolzan 1985)', () => {
  // recomputed and equal to quadrature; H and d m w.e., b m w.e./a, p, age, layer
  it.each([
    [80, 0.45, 0.8, 20, 57.5074, 0.26811603],
    [80, 0.45, 0.8, 70, 950.6737, 0.01065738],
    [80, 0.45, 0.8, 79, 7178.2507, 0.00016891],
    [120, 0.6, 1.3, 60, 224.9675, 0.12183786],
    [120, 0.6, 1.3, 110, 3736.8047, 0.00197713],
    [80, 0.45, 0, 50, 174.3696, 0.16875],
  ])(
    'of %d m w.e., %d m w.e. a year, p %d, at %d m w.e.: %d a, %d m w.e. a year',
    (h, b, p, d, age, layer) => {
      const model = twoParameter({ thickness: h, accumulation: b, p });
      expect(model.age(d)).toBeCloseTo(age, 4);
      expect(model.layer(d)).toBeCloseTo(layer, 8);
    },
  );

  const powers = fc.double({ min: 0, max: 3, noNaN: true });
  describeFlowModel(fc.tuple(flows, powers).map(([flow, p]) => twoParameter({ ...flow, p })));

  it('with p = 0 is Nye’s, and comes to it as p goes to 0', () =>
    fc.assert(
      fc.property(flows, fc.double({ min: 0, max: 0.98, noNaN: true }), (flow, share) => {
        const depth = share * flow.thickness;
        const age = nye(flow).age(depth);
        for (const [p, near] of [
          [0, 1e-12],
          [1e-9, 1e-8],
        ] as const)
          expect(Math.abs(twoParameter({ ...flow, p }).age(depth) - age)).toBeLessThanOrEqual(
            near * (1 + age),
          );
      }),
    ));

  it('refuses a negative p and one that is no number', () => {
    const flow = { thickness: 80, accumulation: 0.45 };
    expect(() => twoParameter({ ...flow, p: -0.1 })).toThrow(/p is -0\.1; allowed: 0 to 20/);
    expect(() => twoParameter({ ...flow, p: Number.NaN })).toThrow(/p is NaN/);
  });
});
