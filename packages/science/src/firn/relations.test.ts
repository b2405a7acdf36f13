import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';
import { firnRelations } from './relations.ts';

const at = (name: string, written: Readonly<Record<string, string>>) =>
  Object.fromEntries(Object.entries(called(name, written)).map(([key, { value }]) => [key, value]));

// case S1 of Herron & Langway 1980, in the units of a camp
const warm = { temperature: '-20 °C', accumulation: '50 cm w.e./a', surfaceDensity: '0.36 g/cm3' };

describe('relations of firn', () => {
  it('herron-langway gives density, age, w.e., depth of 550 kg/m3 and close-off in one call', () => {
    const found = at('herron-langway', { ...warm, depth: '20 m' });
    expect(found.density).toBeCloseTo(608.448, 3);
    expect(found.age).toBeCloseTo(20.587, 3);
    expect(found.water).toBeCloseTo(10.2934, 4);
    expect(found.depth550).toBeCloseTo(10.4117, 4);
    expect(found.closeOffDensity).toBeCloseTo(817.36, 2);
    expect(found.closeOffDepth).toBeCloseTo(69.8, 1);
    expect(found.lockInDepth).toBeLessThan(found.closeOffDepth as number);
    expect(found.remark).toMatch(/within the sites/);
  });

  it('lets a person choose gas constant and close-off, and says where the site is unlike the model’s', () => {
    const depth = { ...warm, depth: '20 m' };
    const other = at('herron-langway', { ...depth, gasConstant: '8.315', closeOff: '830' });
    expect(other.depth550).toBeLessThan(at('herron-langway', depth).depth550 as number);
    expect(other.closeOffDensity).toBe(830);
    expect(at('herron-langway', { ...depth, temperature: '-4 °C' }).remark).toMatch(/^warmer than the sites/);
    expect(() => at('herron-langway', { ...depth, closeOff: '800' })).toThrow(
      /no variant "800"; allowed: Martinerie 1994; Martinerie 1992; 830/,
    );
  });

  it('has the inverses: of density, age and water', () => {
    expect(at('firn-depth-of-density', { ...warm, density: '830 kg/m3' }).depth).toBeCloseTo(75.0742, 3);
    expect(at('firn-depth-of-age', { ...warm, age: '101.6982 a' }).depth).toBeCloseTo(75.0742, 3);
    expect(at('firn-depth-of-water', { ...warm, water: '10.2934 m w.e.' }).depth).toBeCloseTo(20, 3);
    expect(at('firn-strain-rate', { ...warm, depth: '20 m' }).strainRate).toBeCloseTo(-0.007915, 6);
  });

  it('close-off, closed pores and the simplest profile', () => {
    expect(at('close-off', { temperature: '240 K' })).toEqual({
      closeOffDensity: expect.closeTo(823.511, 3),
      lockInDensity: expect.closeTo(809.511, 3),
    });
    expect(at('closed-pores', { density: '823.511 kg/m3', temperature: '240 K' }).closed).toBeCloseTo(
      0.37,
      4,
    );
    expect(
      at('exponential-profile', { depth: '20 m', surfaceDensity: '350 kg/m3', firnDepth: '60 m' }).density,
    ).toBeCloseTo(616.0254, 4);
  });

  it('fits measured densities', () => {
    const depths = Array.from({ length: 30 }, (_, i) => 2 * i + 1);
    const densities = depths.map(
      (depth) => at('herron-langway', { ...warm, depth: `${depth} m` }).density as number,
    );
    const found = at('fit-herron-langway', {
      ...warm,
      surfaceDensity: '340 kg/m3',
      tops: `${depths.map((depth) => depth - 0.01).join(' ')} m`,
      bottoms: `${depths.map((depth) => depth + 0.01).join(' ')} m`,
      densities: `${densities.join(' ')} kg/m3`,
      densitySd: '8 kg/m3',
    });
    expect(found.k0).toBeCloseTo(1, 3);
    expect(found.k1).toBeCloseTo(1, 3);
    expect(found.surfaceDensity).toBeCloseTo(360, 1);
    expect(() =>
      at('fit-herron-langway', {
        ...warm,
        tops: '1 2 m',
        bottoms: '3 m',
        densities: '400 500 600 700 kg/m3',
      }),
    ).toThrow(/layer 2 is from 2 m to NaN m/);
  });

  it('melt by length, mass and year; degree days and what they melt', () => {
    const share = at('melt-percentage', {
      thicknesses: '12 8 25 mm',
      densities: '880 870 900 kg/m3',
      length: '1 m',
      density: '620 kg/m3',
    });
    expect(share.byLength).toBeCloseTo(4.5, 10);
    expect(share.byMass).toBeCloseTo(6.454839, 6);
    expect(share.matrix).toBeCloseTo(607.3089, 4);
    expect(at('melt-of-a-year', { melt: '39.7 mm w.e.', accumulation: '0.41 m w.e.' }).byMass).toBeCloseTo(
      9.682927,
      6,
    );
    expect(at('degree-day', { temperature: '-5 °C' }).degreeDays).toBeCloseTo(0.41657735, 7);
    const year = at('degree-days-of-a-year', { temperature: '-8 °C', swing: '10 K', surface: 'ice' });
    expect(year.degreeDays).toBeCloseTo(297.22291, 4);
    expect(year.melt).toBeCloseTo(2.377783, 5);
    expect(at('degree-days-of-days', { temperatures: '-2 0 1.5 3 -0.5 4.2 °C', refrozen: '0.5' })).toEqual({
      degreeDays: expect.closeTo(8.7, 10),
      melt: expect.closeTo(0.01305, 8),
    });
  });

  it('names a page and a source for each, and refuses what no firn has, with the range and its reason', () => {
    for (const { page, source, name } of firnRelations) {
      expect(['firn', 'melt']).toContain(page);
      expect(source.length, name).toBeGreaterThan(20);
    }
    expect(() => at('herron-langway', { ...warm, depth: '20 m', temperature: '3 °C' })).toThrow(
      /is 3 Cel; allowed: -73\.15 to 0 Cel \(200 to 273\.15 K: what the formula can bear/,
    );
    expect(() => at('herron-langway', { ...warm, depth: '-2 m' })).toThrow(
      /depth is -2 m; allowed: 0 to 5000 m/,
    );
    expect(() => at('herron-langway', { ...warm, depth: '20 kg' })).toThrow(/is a mass; allowed: a length/);
    expect(() => at('herron-langway', { depth: '20 m', temperature: '-20 °C' })).toThrow(
      /accumulation is missing/,
    );
  });
});
