import { describe, expect, it } from 'vitest';
import { describeFlowModel, flows } from './flow-model.suite.ts';
import { nye } from './nye.ts';

describe('age by Nye 1963', () => {
  // t = (H/a) ln(H/z), recomputed and equal to quadrature; H, a, z above the bed, age, layer
  it.each([
    [3000, 0.25, 1500, 8317.7662, 0.125],
    [3000, 0.25, 300, 27631.0211, 0.025],
    [500, 0.4, 250, 866.434, 0.2],
    [500, 0.4, 50, 2878.2314, 0.04],
  ])('of %d m with %d m a year, %d m above the bed: %d a, %d m a year', (h, a, z, age, layer) => {
    const model = nye({ thickness: h, accumulation: a });
    expect(model.age(h - z)).toBeCloseTo(age, 4);
    expect(model.layer(h - z)).toBeCloseTo(layer, 8);
    expect(model.thinning(h - z)).toBeCloseTo(z / h, 12);
  });

  describeFlowModel(flows.map(nye));

  it('refuses ice and accumulation that there are not', () => {
    expect(() => nye({ thickness: 0.5, accumulation: 0.3 })).toThrow(
      /thickness is 0\.5 m; allowed: 1 to 5000 m/,
    );
    expect(() => nye({ thickness: 300, accumulation: -0.2 })).toThrow(/0\.001 to 10 m\/a/);
    expect(() => nye({ thickness: Number.NaN, accumulation: 0.2 })).toThrow(/Nye 1963/);
  });
});
