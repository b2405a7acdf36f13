import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openTable, publishedChecks } from '../published-checks.suite.ts';
import { inKelvin } from '../units.ts';
import { herronLangway, outsideCalibration } from './herron-langway.ts';
import { firnStrainRate, sinkingRate } from './strain-rate.ts';

// Closed forms of Herron & Langway 1980 (R = 8.314, 917 kg/m3), each integrated as a differential equation as well:
// T K, A m w.e./a, surface kg/m3, k0, k1, depth and age at 550, depth and age at 830 kg/m3
const sites = {
  S1: [253.15, 0.5, 360, 0.08808782, 0.02207295, 10.4117, 9.4724, 75.0742, 101.698],
  S2: [244.65, 0.25, 340, 0.07448638, 0.01550385, 13.6662, 24.2987, 78.7627, 209.988],
  S3: [248.15, 0.41, 360, 0.07992336, 0.01798398, 11.4752, 12.7318, 83.343, 137.735],
  S4: [219.15, 0.036, 330, 0.04165414, 0.00455796, 25.6694, 313.203, 109.694, 1977.67],
  S5: [262.15, 0.6, 400, 0.10396593, 0.03129404, 6.9347, 5.4935, 56.897, 64.876],
} as const;
// depth m, then density kg/m3, age a, w.e. m
const rows = {
  S1: [
    [5, 451.032, 4.0516, 2.0258],
    [10, 542.657, 9.0226, 4.51132],
    [20, 608.448, 20.5868, 10.2934],
    [40, 713.025, 47.105, 23.55249],
    [80, 840.487, 109.9277, 54.96387],
  ],
  S2: [
    [5, 415.669, 7.5491, 1.88727],
    [10, 493.768, 16.6431, 4.16077],
    [20, 588.84, 38.7287, 9.68219],
    [40, 697.03, 90.3299, 22.58247],
    [80, 832.731, 214.1029, 53.52574],
  ],
  S4: [
    [5, 371.325, 48.682, 1.75254],
    [10, 414.173, 103.216, 3.71579],
    [20, 501.474, 230.388, 8.29398],
    [40, 616.829, 545.636, 19.64289],
    [80, 763.139, 1318.405, 47.46258],
  ],
} as const;
const at = (name: keyof typeof sites) => {
  const [temperature, accumulation, surfaceDensity] = sites[name];
  return herronLangway({ temperature, accumulation, surfaceDensity });
};
const near = (value: number, expected: number, relative = 1e-4) =>
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);

describe('Herron & Langway 1980', () => {
  it('moves the depth of 550 kg/m3 by 0.06 % with the other gas constant, and refuses one that is none', () => {
    const site = { temperature: 248.15, accumulation: 0.41, surfaceDensity: 360 };
    const usual = herronLangway(site).depth550;
    const other = herronLangway({ ...site, gasConstant: 8.315 }).depth550;
    expect(herronLangway({ ...site, gasConstant: 8.314 }).depth550).toBe(usual);
    expect(1 - other / usual).toBeGreaterThan(0.0005);
    expect(1 - other / usual).toBeLessThan(0.0007);
    expect(() => herronLangway({ ...site, gasConstant: 8314 })).toThrow(/gas constant is 8314/);
  });

  for (const name of Object.keys(sites) as (keyof typeof sites)[])
    it(`gives rates, and depth and age at 550 and 830 kg/m3, of case ${name}`, () => {
      const [, , , k0, k1, depth550, age550, depth830, age830] = sites[name];
      const column = at(name);
      near(column.k0, k0, 1e-6);
      near(column.k1, k1, 1e-6);
      near(column.depth550, depth550);
      near(column.age550, age550);
      near(column.depthOfDensity(830), depth830);
      near(column.age(column.depthOfDensity(830)), age830);
    });

  for (const [name, values] of Object.entries(rows))
    it(`gives density, age and w.e. at depth of case ${name}`, () => {
      const column = at(name as keyof typeof rows);
      for (const [depth, density, age, water] of values) {
        near(column.density(depth), density);
        near(column.age(depth), age);
        near(column.waterEquivalent(depth), water);
      }
    });

  const anySite = fc.record({
    temperature: fc.double({ min: 210, max: 270, noNaN: true }),
    accumulation: fc.double({ min: 0.02, max: 2, noNaN: true }),
    surfaceDensity: fc.double({ min: 250, max: 700, noNaN: true }),
  });
  const anyDepth = fc.double({ min: 0, max: 300, noNaN: true });

  it('is in a steady state: w.e. depth is accumulation times age, and the integral of its own density', () => {
    fc.assert(
      fc.property(anySite, fc.double({ min: 1, max: 150, noNaN: true }), (site, depth) => {
        const column = herronLangway(site);
        near(column.waterEquivalent(depth), site.accumulation * column.age(depth), 1e-9);
        const parts = 20_000;
        let water = 0;
        for (let k = 0; k < parts; k++)
          water += column.density(((k + 0.5) * depth) / parts) * (depth / parts);
        near(column.waterEquivalent(depth), water / 1000, 2e-6);
      }),
      { numRuns: 30 },
    );
  });

  it('has inverses that lead back: depth of density, of age, of w.e.', () => {
    fc.assert(
      fc.property(anySite, anyDepth, (site, depth) => {
        const column = herronLangway(site);
        const tolerance = 1e-6 * (1 + depth);
        expect(Math.abs(column.depthOfAge(column.age(depth)) - depth)).toBeLessThan(tolerance);
        expect(Math.abs(column.depthOfWater(column.waterEquivalent(depth)) - depth)).toBeLessThan(tolerance);
        const density = column.density(depth);
        if (density < 916.9 && density > site.surfaceDensity)
          expect(Math.abs(column.depthOfDensity(density) - depth)).toBeLessThan(1e-3);
      }),
    );
  });

  it('grows: density, age, w.e. and air never fall with depth; density is steady at 550 kg/m3 and never above ice', () => {
    fc.assert(
      fc.property(anySite, anyDepth, fc.double({ min: 0.01, max: 50, noNaN: true }), (site, depth, more) => {
        const column = herronLangway(site);
        expect(column.density(depth + more)).toBeGreaterThanOrEqual(column.density(depth));
        expect(column.density(depth + more)).toBeLessThanOrEqual(917);
        expect(column.age(depth + more)).toBeGreaterThan(column.age(depth));
        expect(column.firnAir(depth + more)).toBeGreaterThanOrEqual(column.firnAir(depth) - 1e-9);
        const bend = column.depth550;
        expect(Math.abs(column.density(bend + 1e-9) - column.density(bend))).toBeLessThan(1e-5);
      }),
    );
  });

  it('reaches 550 kg/m3 at a depth that does not depend on accumulation', () => {
    const depth = (accumulation: number) =>
      herronLangway({ temperature: 250, accumulation, surfaceDensity: 350 }).depth550;
    for (const accumulation of [0.05, 0.2, 1]) expect(depth(accumulation)).toBe(depth(0.4));
  });

  it('has no first stage where the surface is denser than 550 kg/m3', () => {
    const column = herronLangway({ temperature: 258, accumulation: 0.5, surfaceDensity: 600 });
    expect([column.depth550, column.age550]).toEqual([0, 0]);
    expect(column.density(0)).toBeCloseTo(600, 9);
  });

  it('refuses what no firn is, and says where it was never calibrated', () => {
    const site = { temperature: 250, accumulation: 0.4, surfaceDensity: 350 };
    expect(() => herronLangway({ ...site, temperature: -18 })).toThrow(
      /temperature is -18 K; allowed: 200 to 273\.15 K/,
    );
    expect(() => herronLangway({ ...site, accumulation: 400 })).toThrow(/0\.001 to 10 m w\.e\.\/a/);
    expect(() => herronLangway({ ...site, surfaceDensity: 0.35 })).toThrow(/allowed: 50 to 916 kg\/m3/);
    expect(() => herronLangway(site).density(-1)).toThrow(/0 m or more/);
    expect(() => herronLangway(site).depthOfDensity(300)).toThrow(/350 to below 917/);
    expect(outsideCalibration(site)).toEqual([]);
    expect(outsideCalibration({ temperature: 268, accumulation: 0.9 })).toEqual(['warmer', 'wetter']);
  });
});

describe('firn strain rate', () => {
  it('is the slope of how fast firn sinks, at any depth of either stage', () => {
    for (const name of ['S1', 'S2', 'S4'] as const) {
      const column = at(name);
      for (const depth of [1, 5, 9, 30, 60, 100]) {
        const h = 1e-3;
        const slope = (sinkingRate(column, depth + h) - sinkingRate(column, depth - h)) / (2 * h);
        near(firnStrainRate(column, depth), slope, 1e-5);
      }
    }
  });

  it('shortens a metre at 5 m by some 4 cm a year at a wet site, by half a millimetre deep down', () => {
    const column = at('S1');
    expect(firnStrainRate(column, 5)).toBeCloseTo(-0.0455, 3);
    expect(Math.abs(firnStrainRate(column, 100))).toBeLessThan(0.001);
  });
});

const sheet = publishedChecks('02_firn')?.filter(({ id }) => id.startsWith('HL80'));
describe.skipIf(sheet === undefined)('every entry on Herron & Langway of the sheet of check values', () => {
  it('has 5 entries', () => expect(sheet).toHaveLength(5));
  for (const { id, inputs, expected } of sheet ?? [])
    it(id, () => {
      const { T_K, A_mwe, rho0 } = inputs as Record<string, number>;
      const column = herronLangway({ temperature: T_K, accumulation: A_mwe, surfaceDensity: 1000 * rho0 });
      const all = expected as Record<string, number | Record<string, number>>;
      near(column.k0, all.k0 as number);
      near(column.k1, all.k1 as number);
      near(column.depth550, all.h_550 as number);
      near(column.age550, all.t_550 as number);
      near(column.depthOfDensity(830), all.h_830 as number);
      near(column.age(column.depthOfDensity(830)), all.t_830 as number);
      for (const depth of [5, 10, 20, 40, 60, 80]) {
        near(column.density(depth), 1000 * (all.rho as Record<string, number>)[depth]);
        // the sheet gives ages to 0.001 a
        expect(Math.abs(column.age(depth) - (all.age as Record<string, number>)[depth])).toBeLessThan(
          6e-4 + 1e-4 * column.age(depth),
        );
        near(column.waterEquivalent(depth), (all.we as Record<string, number>)[depth]);
      }
    });
});

// Weissbach et al. 2016, doi:10.5194/cp-12-171-2016: site table, and mean densities of the same cores (of 8 or 12
// rows each; the depth is the middle). B19 is not in the site table.
const climate = openTable('ngt_b19_b22_b23/site_climate.csv', ',');
describe('Herron & Langway at the sites of the North Greenland Traverse', () => {
  it.skipIf(climate === null)(
    'plain model against the measured profiles: rms 6.1 kg/m3 at B22, 17.6 kg/m3 at B23',
    () => {
      const rms = ['B22', 'B23'].map((core) => {
        const site = climate!.find((row) => row.text('site') === core)!;
        const column = herronLangway({
          temperature: inKelvin(site.number('mean_T_C')),
          accumulation: site.number('accum_kg_m2_a') / 1000,
          surfaceDensity: site.number('surface_density_kg_m3'),
        });
        const misses = openTable(`ngt_b19_b22_b23/DepthDensity_lowResAve__${core}.tsv`)!.map(
          (row) => row.number('density') - column.density(row.number('iceDepth')),
        );
        return Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / misses.length);
      });
      expect(rms.map((value) => value.toFixed(1))).toEqual(['6.1', '17.6']);
    },
  );
});
