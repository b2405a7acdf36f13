import { describe, expect, it } from 'vitest';
import { iceEquivalent, layerWaterEquivalent } from '../density/water-equivalent.ts';
import { publishedChecks } from '../published-checks.suite.ts';
import { positiveDegrees, yearlyDegreeDays } from './degree-days.ts';
import { meltByYear, meltPercentageOfYear, meltShare } from './melt.ts';

const layer = (top: number, thickness: number, density: number) => ({
  top,
  bottom: top + thickness,
  density,
  thicknessSd: 0.001,
  densitySd: 10,
});
const layers = [layer(0.1, 0.012, 880), layer(0.4, 0.008, 870), layer(0.7, 0.025, 900)];
const bulk = { value: 620, sd: 5 };

describe('melt-feature percentage', () => {
  it('of 12, 8 and 25 mm of ice in a metre of 620 kg/m3: 4.5 % by length, 6.454839 % by mass, firn of 607.3089', () => {
    const share = meltShare(layers, { from: 0, to: 1 }, bulk);
    expect(share.byLength.value).toBeCloseTo(4.5, 10);
    expect(share.byMass.value).toBeCloseTo(6.454839, 5);
    expect(1000 * share.melt.value).toBeCloseTo(40.02, 10);
    expect(1000 * share.total.value).toBeCloseTo(620, 10);
    expect(share.matrix!.value).toBeCloseTo(607.3089, 3);
  });

  it('carries errors: 1 mm a layer is 0.17 % of a metre by length; bulk density makes nearly all of the firn’s', () => {
    const share = meltShare(layers, { from: 0, to: 1 }, bulk);
    expect(share.byLength.sd).toBeCloseTo(100 * Math.sqrt(3) * 0.001, 10);
    expect(share.byMass.sd).toBeCloseTo(
      Math.hypot((share.melt.sd / share.total.value) * 100, (share.byMass.value * 5) / 620),
      10,
    );
    expect(share.matrix!.sd).toBeGreaterThan(5 / 0.955);
    expect(share.matrix!.sd).toBeLessThan(5.5);
  });

  it('counts a layer with what lies within the window; windows that meet add up', () => {
    const window = (from: number, to: number) => meltShare(layers, { from, to }, bulk);
    const [above, below, whole] = [window(0, 0.71), window(0.71, 1), window(0, 1)];
    expect(above.melt.value + below.melt.value).toBeCloseTo(whole.melt.value, 12);
    expect(above.byLength.value).toBeCloseTo((100 * 0.03) / 0.71, 9);
    expect(window(0.2, 0.3).byLength.value).toBe(0);
  });

  it('per year, of the boundaries given: 0.0397 m w.e. of 0.41 m w.e. are 9.682927 %', () => {
    const [year] = meltByYear(
      [layer(1.2, 0.0397 / 0.9, 900)],
      [{ year: 2001, top: 1, bottom: 1 + 0.41 / 0.5 }],
      () => ({ value: 500, sd: 0 }),
    );
    expect(year.year).toBe(2001);
    expect(year.byMass.value).toBeCloseTo(9.682927, 5);
  });

  it('of a year known as water: 9.682927 %, and never more than fell', () => {
    expect(meltPercentageOfYear(0.0397, 0.41)).toBeCloseTo(9.682927, 6);
    expect(() => meltPercentageOfYear(0.5, 0.41)).toThrow(/melt is 0\.5 m w\.e\.; allowed: 0 to 0\.41/);
    expect(() => meltPercentageOfYear(0.1, 0)).toThrow(/accumulation is 0/);
  });

  it('has no firn where all is ice', () => {
    expect(meltShare([layer(0, 1, 900)], { from: 0, to: 1 }, { value: 900, sd: 5 }).matrix).toBeNull();
  });

  it('refuses windows and layers that do not go down, and layers that overlap', () => {
    expect(() => meltShare(layers, { from: 1, to: 1 }, bulk)).toThrow(/window is from 1 m to 1 m/);
    expect(() => meltShare([layer(0.1, -0.1, 900)], { from: 0, to: 1 }, bulk)).toThrow(
      /melt layer at 0\.1 m/,
    );
    expect(() => meltShare([layer(0.1, 0.1, 900), layer(0.15, 0.1, 900)], { from: 0, to: 1 }, bulk)).toThrow(
      /overlaps/,
    );
    expect(() => meltShare([layer(0.1, 0.1, 0.9)], { from: 0, to: 1 }, bulk)).toThrow(/300 to 925 kg\/m3/);
  });
});

describe('positive degree days', () => {
  // Calov & Greve 2005, the integral computed by quadrature
  it.each([
    [-5, 5, 0.41657735],
    [0, 5, 1.9947114],
    [3, 5, 3.84336366],
    [-10, 5, 0.04245351],
    [2, 0.0001, 2],
  ])('of a day of %d degrees C give or take %d K', (mean, sd, expected) => {
    expect(Math.abs(positiveDegrees(mean, sd) - expected)).toBeLessThan(1e-6);
  });

  it('of a year of -8 degrees C with a swing of 10: 297.22291 K d, 891.669 mm of snow at 3 mm a degree day', () => {
    expect(Math.abs(yearlyDegreeDays(-8, 10, 5) - 297.22291)).toBeLessThan(1e-3);
    expect(Math.abs(3 * yearlyDegreeDays(-8, 10, 5) - 891.669)).toBeLessThan(1e-2);
    expect(Math.abs(8 * yearlyDegreeDays(-8, 10, 5) - 2377.783)).toBeLessThan(1e-2);
  });

  it('of measured days is their positive sum: 8.7 K d', () => {
    const days = [-2, 0, 1.5, 3, -0.5, 4.2];
    expect(days.reduce((sum, day) => sum + positiveDegrees(day, 0), 0)).toBeCloseTo(8.7, 12);
    expect(() => positiveDegrees(0, -1)).toThrow(/0 to 50 K/);
  });
});

const sheet = publishedChecks('12_melt')?.filter(({ id }) => !id.startsWith('density.'));
describe.skipIf(sheet === undefined)('every entry on melt of the sheet of check values', () => {
  const computed = (
    id: string,
    inputs: Record<string, number>,
  ): number | number[] | Record<string, number> => {
    switch (id) {
      case 'melt.pct': {
        let depth = 0;
        const given = (inputs.layers as unknown as [number, number][]).map(([t, density]) => {
          depth += 0.1 + t;
          return layer(depth - t, t, 1000 * density);
        });
        const share = meltShare(
          given,
          { from: 0, to: inputs.section_m },
          { value: 1000 * inputs.rho_bulk, sd: 0 },
        );
        return {
          by_length: share.byLength.value,
          by_mass: share.byMass.value,
          melt_we_mm: 1000 * share.melt.value,
          total_we_mm: 1000 * share.total.value,
          rho_matrix: share.matrix!.value / 1000,
        };
      }
      case 'melt.annual':
        return meltByYear(
          [layer(0, inputs.melt_we / 0.9, 900)],
          [{ year: 1, top: 0, bottom: inputs.annual_we / 0.5 }],
          () => ({ value: 500, sd: 0 }),
        )[0].byMass.value;
      case 'cube.we':
        return layerWaterEquivalent(inputs.thickness, inputs.rho);
      case 'ice_eq':
        return iceEquivalent(inputs.we, inputs.rho_i);
      case 'pdd.year':
        return yearlyDegreeDays(inputs.Tmean, inputs.amp, inputs.sigma);
      case 'melt.pdd': {
        const days = yearlyDegreeDays(-8, 10, 5);
        return [inputs.DDF_snow * days, inputs.DDF_ice * days];
      }
      case 'pdd.daily':
        return (inputs.T as unknown as number[]).reduce((sum, day) => sum + positiveDegrees(day, 0), 0);
      default:
        if (id.startsWith('pdd.T')) return positiveDegrees(inputs.T, inputs.sigma);
        throw new Error(`nothing computes ${id}`);
    }
  };
  it('has 12 entries', () => expect(sheet).toHaveLength(12));
  for (const { id, inputs, expected, tol } of sheet ?? [])
    it(id, () => {
      const found = computed(id, inputs);
      const tolerance = tol === 'exact' ? 1e-12 : Number(tol.split(' ')[0]);
      const pairs: [number, number][] =
        typeof found === 'number'
          ? [[found, expected]]
          : Object.entries(found).map(([key, value]) => [value, expected[key]]);
      for (const [value, wanted] of pairs)
        expect(Math.abs(value - wanted)).toBeLessThanOrEqual(tolerance * Math.max(1, Math.abs(wanted)));
    });
});
