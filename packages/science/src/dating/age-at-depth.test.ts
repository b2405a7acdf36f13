import { describe, expect, it } from 'vitest';
import { herronLangway } from '../firn/herron-langway.ts';
import { seeded } from '../random/index.ts';
import { evaluate } from '../relations/evaluate.ts';
import { parseInput } from '../relations/input.ts';
import { ageAtDepth, type FlowShape } from './age-at-depth.ts';
import { flowRelations } from './flow-relations.ts';

// a saddle as the Ceredin Saddle might be
const site = { temperature: 253.15, accumulation: 0.41, surfaceDensity: 360 };
const shapes: readonly FlowShape[] = [
  { model: 'Nye 1963' },
  { model: 'Dansgaard & Johnsen 1969', kinkShare: 0.3 },
  { model: 'two-parameter (Bolzan 1985)', p: 0.6 },
];

describe('age and layer at a real depth', () => {
  for (const shape of shapes)
    it(`${shape.model}: the age is the sum of its layers, metre by metre of real depth`, () => {
      const depth = 110;
      const n = 20_000;
      let age = 0;
      for (let i = 0; i < n; i++) {
        const z = ((i + 0.5) * depth) / n;
        age += depth / n / ageAtDepth(site, shape, 240, z).layer;
      }
      const found = ageAtDepth(site, shape, 240, depth);
      expect(Math.abs(age / found.age - 1)).toBeLessThan(1e-6);
      expect(found.layer).toBeCloseTo((1000 * found.layerWater) / found.density, 12);
      expect(found.layerWater).toBeCloseTo(site.accumulation * found.thinning, 12);
    });

  it('near the surface of thick ice is the firn’s age, for the flow has not thinned it yet', () => {
    const column = herronLangway(site);
    for (const shape of shapes) {
      const found = ageAtDepth(site, shape, 3000, 8);
      expect(Math.abs(found.age / column.age(8) - 1)).toBeLessThan(2.5e-3);
      expect(found.age).toBeGreaterThan(column.age(8));
      expect(found.density).toBe(column.density(8));
    }
  });

  it('tells metres of ice and water apart from metres in the hole', () => {
    const { waterDepth, iceDepth } = ageAtDepth(site, shapes[0], 240, 60);
    expect(iceDepth).toBeCloseTo(waterDepth / 0.917, 10);
    expect(iceDepth).toBeLessThan(60);
  });

  it('refuses what lies at the bed or beneath, in metres of the hole', () => {
    expect(() => ageAtDepth(site, shapes[0], 120, 119.9)).toThrow(
      /depth is 119\.9 m of 120 m; allowed: 0 to 118\.\d\d m: below 0\.99 of the ice/,
    );
    for (const shape of shapes) expect(ageAtDepth(site, shape, 120, 118.9).age).toBeGreaterThan(500);
    expect(() => ageAtDepth(site, shapes[0], 120, -1)).toThrow(/depth is -1 m/);
    expect(() => ageAtDepth(site, shapes[0], 5, 1)).toThrow(/10 to 5000 m/);
    expect(() => ageAtDepth(site, shapes[0], 120, Number.NaN)).toThrow(/depth is NaN/);
  });

  it('as a relation carries uncertainties, as many draws do', () => {
    const relation = flowRelations.find(({ name }) => name === 'age-at-depth')!;
    const given = {
      depth: '62.0 ± 0.1 m',
      thickness: '240 ± 15 m',
      temperature: '-20 ± 1 °C',
      accumulation: '0.41 ± 0.03 m w.e./a',
      surfaceDensity: '360 ± 15 kg/m3',
      model: 'dansgaard & johnsen 1969',
      kinkShare: '0.3 ± 0.05',
    };
    const { results } = evaluate(
      relation,
      Object.fromEntries(
        Object.entries(given).map(([name, text]) => [name, parseInput(relation.takes[name]!, text)]),
      ),
    );
    const random = seeded(20260412);
    const ages: number[] = [];
    const layers: number[] = [];
    for (let i = 0; i < 20_000; i++) {
      const drawn = ageAtDepth(
        {
          temperature: 253.15 + random.normal(),
          accumulation: 0.41 + 0.03 * random.normal(),
          surfaceDensity: 360 + 15 * random.normal(),
        },
        { model: 'Dansgaard & Johnsen 1969', kinkShare: 0.3 + 0.05 * random.normal() },
        240 + 15 * random.normal(),
        62 + 0.1 * random.normal(),
      );
      ages.push(drawn.age);
      layers.push(drawn.layer);
    }
    const sdOf = (values: readonly number[]) => {
      const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
      return Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / values.length);
    };
    // first order against all orders: within a few per cent
    expect(Math.abs((results.age!.sd as number) / sdOf(ages) - 1)).toBeLessThan(0.05);
    expect(Math.abs((results.layer!.sd as number) / sdOf(layers) - 1)).toBeLessThan(0.05);
    expect(results.age!.parts.toSorted((a, b) => b.sd - a.sd)[0]!.from).toBe('accumulation');
  });
});
