import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { FlowModel } from './flow-model.ts';

/** What every flow model promises, whoever wrote it. */
export const describeFlowModel = (models: fc.Arbitrary<FlowModel>): void => {
  const shares = fc.double({ min: 0.001, max: 0.985, noNaN: true });

  it('is 0 years old at the surface, where a layer is the accumulation', () =>
    fc.assert(
      fc.property(models, (model) => {
        expect(Math.abs(model.age(0))).toBe(0);
        expect(model.layer(0)).toBeCloseTo(model.accumulation, 9);
      }),
    ));

  it('grows older and thinner with depth', () =>
    fc.assert(
      fc.property(
        models,
        shares,
        fc.double({ min: 0.0005, max: 0.004, noNaN: true }),
        (model, share, step) => {
          const [above, below] = [share * model.thickness, (share + step) * model.thickness];
          expect(model.age(below)).toBeGreaterThan(model.age(above));
          expect(model.layer(below)).toBeLessThanOrEqual(model.layer(above));
          expect(model.layer(below)).toBeGreaterThan(0);
        },
      ),
    ));

  it('gives a depth back from its age', () =>
    fc.assert(
      fc.property(models, shares, (model, share) => {
        const depth = share * model.thickness;
        expect(Math.abs(model.depthOfAge(model.age(depth)) / depth - 1)).toBeLessThan(1e-9);
      }),
    ));

  it('has the age of its layers: the integral of 1/layer, by Simpson', () =>
    fc.assert(
      fc.property(models, shares, (model, share) => {
        const depth = Math.min(share, 0.9) * model.thickness;
        const n = 4000;
        let sum = 0;
        for (let i = 0; i <= n; i++)
          sum += (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2) / model.layer((depth * i) / n);
        expect(Math.abs((sum * depth) / (3 * n) / model.age(depth) - 1)).toBeLessThan(1e-5);
      }),
      { numRuns: 30 },
    ));

  it('gives no age above the surface or below 0.99 of the thickness, and says so', () =>
    fc.assert(
      fc.property(models, (model) => {
        expect(model.age(0.99 * model.thickness)).toBeGreaterThan(0);
        for (const depth of [0.995 * model.thickness, -1, Number.NaN, Number.POSITIVE_INFINITY])
          for (const at of [model.age, model.layer, model.thinning])
            expect(() => at(depth)).toThrow(/0\.99 of the thickness/);
        for (const age of [-1, Number.NaN, 1.01 * model.age(0.99 * model.thickness)])
          expect(() => model.depthOfAge(age)).toThrow(/age is/);
      }),
      { numRuns: 20 },
    ));
};

/** Thickness and accumulation of any ice. */
export const flows = fc.record({
  thickness: fc.double({ min: 20, max: 4500, noNaN: true }),
  accumulation: fc.double({ min: 0.01, max: 2, noNaN: true }),
});
