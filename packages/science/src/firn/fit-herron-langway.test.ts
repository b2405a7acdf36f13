import { describe, expect, it } from 'vitest';
import { openTable } from '../published-checks.suite.ts';
import { seeded } from '../random/index.ts';
import { inKelvin } from '../units.ts';
import { type FirnLayer, fitHerronLangway, meanDensity } from './fit-herron-langway.ts';
import { herronLangway } from './herron-langway.ts';

const site = { temperature: 253.15, accumulation: 0.4, surfaceDensity: 360 };
const layersOf = (truth: Parameters<typeof herronLangway>[0], noise: (i: number) => number): FirnLayer[] => {
  const column = herronLangway(truth);
  return Array.from({ length: 80 }, (_, i) => ({
    top: i,
    bottom: i + 0.9,
    density: meanDensity(column, i, i + 0.9) + noise(i),
    sd: 5,
    sharedShare: 0.004,
  }));
};

describe('fit of Herron & Langway to a measured profile', () => {
  it('finds the factors and the surface density that a profile without errors was made with', () => {
    const truth = { ...site, k0Factor: 1.2, k1Factor: 0.85, surfaceDensity: 390 };
    const fit = fitHerronLangway(
      site,
      layersOf(truth, () => 0),
    );
    expect(fit.converged).toBe(true);
    expect(fit.parameters.map(({ name }) => name)).toEqual(['k0', 'k1', 'surfaceDensity']);
    [1.2, 0.85, 390].forEach((value, i) => {
      expect(Math.abs(fit.parameters[i].value / value - 1)).toBeLessThan(1e-6);
    });
    expect(fit.rms).toBeLessThan(1e-4);
    expect(fit.rmsBefore).toBeGreaterThan(10);
  });

  it('finds the accumulation instead, since k1 and accumulation say the same of a profile', () => {
    const truth = { ...site, accumulation: 0.3 };
    const fit = fitHerronLangway(
      site,
      layersOf(truth, () => 0),
      ['surfaceDensity', 'accumulation'],
    );
    expect(Math.abs(fit.parameters[1].value - 0.3)).toBeLessThan(1e-6);
    expect(() =>
      fitHerronLangway(
        site,
        layersOf(truth, () => 0),
        ['k1', 'accumulation'],
      ),
    ).toThrow(/k1 and accumulation are both to be fitted/);
  });

  it('states errors that hold: of 300 noisy profiles 93 to 97 % lie within 1.96 standard deviations', () => {
    const truth = { ...site, k0Factor: 1.1, k1Factor: 0.9 };
    const random = seeded(20260101);
    const inside = [0, 0, 0];
    const runs = 300;
    for (let run = 0; run < runs; run++) {
      const fit = fitHerronLangway(
        site,
        layersOf(truth, () => 5 * random.normal()),
      );
      [1.1, 0.9, 360].forEach((value, k) => {
        const { value: found, randomSd } = fit.parameters[k];
        if (Math.abs(found - value) <= 1.96 * randomSd) inside[k] += 1;
      });
    }
    for (const count of inside) {
      expect(count / runs).toBeGreaterThan(0.92);
      expect(count / runs).toBeLessThan(0.985);
    }
  }, 60_000);

  it('keeps apart what a diameter wrong for all pieces does: the fit moves by its shared error', () => {
    const truth = { ...site, k0Factor: 1.1, k1Factor: 0.9 };
    const right = fitHerronLangway(
      site,
      layersOf(truth, () => 0),
    );
    const wrong = layersOf(truth, () => 0).map((layer) => ({ ...layer, density: layer.density * 1.004 }));
    const moved = fitHerronLangway(site, wrong);
    right.parameters.forEach(({ value, sharedSd }, k) => {
      expect(Math.abs(moved.parameters[k].value - value) / sharedSd).toBeCloseTo(1, 1);
    });
  });

  it('refuses too few layers, layers that go up, layers without an error', () => {
    const layers = layersOf(site, () => 0);
    expect(() => fitHerronLangway(site, layers.slice(0, 3))).toThrow(
      /3 layers for 3 parameters; allowed: 4 or more/,
    );
    expect(() => fitHerronLangway(site, [...layers, { ...layers[0], bottom: -1 }])).toThrow(
      /layer 81 is from 0 m to -1 m/,
    );
    expect(() => fitHerronLangway(site, [...layers, { ...layers[0], sd: 0 }])).toThrow(/sd of layer 81/);
    expect(() => fitHerronLangway(site, layers.slice(20), ['surfaceDensity', 'k0'])).toThrow(
      /say nothing of one of surfaceDensity, k0/,
    );
  });
});

// Weissbach et al. 2016, doi:10.5194/cp-12-171-2016: a row's density is that of the stretch down to the next row
const climate = openTable('ngt_b19_b22_b23/site_climate.csv', ',');
describe('fit at the sites of the North Greenland Traverse', () => {
  it.skipIf(climate === null)(
    'B22 and B23: the fitted model is closer to the measured profile than the plain one',
    () => {
      for (const core of ['B22', 'B23']) {
        const row = climate!.find((one) => one.text('site') === core)!;
        const measured = openTable(`ngt_b19_b22_b23/DepthDensity_lowRes__${core}.tsv`)!;
        const layers = measured.slice(0, -1).map((one, i) => ({
          top: one.number('iceDepth'),
          bottom: measured[i + 1].number('iceDepth'),
          density: one.number('density'),
          // w.e. depths are printed to 1 cm, over some 20 cm of ice
          sd: 25,
          sharedShare: 0,
        }));
        const fit = fitHerronLangway(
          {
            temperature: inKelvin(row.number('mean_T_C')),
            accumulation: row.number('accum_kg_m2_a') / 1000,
            surfaceDensity: row.number('surface_density_kg_m3'),
          },
          layers,
        );
        expect(fit.converged).toBe(true);
        expect(fit.rms).toBeLessThanOrEqual(fit.rmsBefore);
      }
    },
  );
});
