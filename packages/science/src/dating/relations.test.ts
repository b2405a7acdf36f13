import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';
import { datingRelations } from './relations.ts';

const values = (name: string, inputs: Record<string, string>) =>
  Object.fromEntries(Object.entries(called(name, inputs)).map(([key, { value }]) => [key, value]));

describe('relations of dating', () => {
  it('flow models: age, layer and back', () => {
    const ice = { thickness: '1367 m', accumulation: '0.35 m/a' };
    expect(values('nye-age', { depth: '1.5 km', thickness: '3 km', accumulation: '250 mm/a' })).toEqual({
      age: expect.closeTo(8317.7662, 4),
      layer: expect.closeTo(0.125, 10),
      thinning: expect.closeTo(0.5, 10),
    });
    expect(values('dansgaard-johnsen-age', { ...ice, depth: '500 m', kink: '400 m' }).age).toBeCloseTo(
      1865.2047,
      4,
    );
    expect(
      values('dansgaard-johnsen-depth', { ...ice, age: '6480.8871 a', kink: '400 m' }).depth,
    ).toBeCloseTo(1000, 4);
    const water = { thickness: '80 m w.e.', accumulation: '0.45 m w.e./a', p: '0.8' };
    expect(values('two-parameter-age', { ...water, depth: '50 m w.e.' }).layer).toBeCloseTo(0.07699611, 8);
    expect(values('two-parameter-depth', { ...water, age: '57.5074 a' }).depth).toBeCloseTo(20, 4);
    expect(values('nye-depth', { ...ice, age: '500 a' }).depth).toBeCloseTo(
      1367 * (1 - Math.exp((-500 * 0.35) / 1367)),
      8,
    );
    expect(() => values('two-parameter-age', { ...water, depth: '50 m' })).toThrow(
      /a length; allowed: a mass on an area/,
    );
  });

  it('the shares of the thickness matter where the model has them alone', () => {
    const given = { top: '100 m', bottom: '101 m', years: '8 a', thickness: '250 m' };
    const nye = values('accumulation-of-layer', { ...given, kinkShare: '0.4', p: '2' });
    expect(nye).toEqual(values('accumulation-of-layer', given));
    expect(nye.thinning).toBeCloseTo(1 - 100.5 / 250, 4);
    const model = 'two-parameter (Bolzan 1985)';
    expect(values('accumulation-of-layer', { ...given, model }).accumulation).toBeGreaterThan(
      nye.accumulation as number,
    );
  });

  it('a count has its uncertainty by the convention that was named', () => {
    const layers = { certain: '95', uncertain: '10' };
    expect(called('counted-age', layers).age).toMatchObject({ value: 100, sd: 2.5 });
    expect(called('counted-age', { ...layers, convention: 'independent layers' }).age!.sd).toBeCloseTo(
      1.5811,
      4,
    );
  });

  it('epochs, dates and years by name', () => {
    expect(values('epoch', { year: '44', epoch: 'BCE' })).toEqual({
      astronomical: -43,
      BP: 1993,
      b2k: 2043,
      written: '44 BCE',
    });
    expect(values('date', { date: '1986-W17-6' })).toEqual({
      date: '1986-04-26',
      ordinal: '1986-116',
      week: '1986-W17-6',
      decimalYear: expect.closeTo(1986.3150685, 7),
    });
    expect(values('decimal-year', { year: '2024.1612022' }).date).toBe('2024-02-29');
    expect(values('elapsed', { from: '1963-07-01', to: '2026-03-01', year: 'NUBASE y' })).toEqual({
      years: expect.closeTo(22_889 / 365.2422, 9),
      days: expect.closeTo(22_889, 8),
      yearLength: 365.2422,
    });
    expect(() => values('elapsed', { from: '2026-03-01', to: '1963-07-01' })).toThrow(
      /the earlier date first/,
    );
  });

  it('decay says which half-life it used, and what its uncertainty makes', () => {
    const given = {
      activity: '12.3 mBq/kg',
      measured: '2026-03-01',
      deposited: '1963-07-01',
      nuclide: '137Cs',
    };
    const found = called('decay-correction', given);
    // the half-life of 30.04 tropical years is 30.03936 of 365.25 days: 3e-5 more than the check with 30.04 of those
    expect(found.activity!.value).toBeCloseTo(0.05222591 * (1 + 3.2e-5), 6);
    expect(found.activity!.sd).toBeCloseTo(0.0522 * ((Math.LN2 * 62.667 * 0.04) / 30.04 ** 2), 6);
    expect(found.halfLife).toMatchObject({ unit: 'a', value: expect.closeTo(30.0394, 4) });
    expect(found.source!.value).toMatch(/^NUBASE2020, .* \(read\)$/);
    expect(called('decay-correction', { ...given, evaluation: 'DDEP' }).activity!.value).not.toBe(
      found.activity!.value,
    );
    expect(
      called('decay', { activity: '100.0 ± 2.0 Bq/kg', elapsed: '62 a', nuclide: 'H-3' }).activity!.parts,
    ).toEqual([
      { from: 'activity', sd: expect.closeTo(0.061, 3) },
      { from: 'the relation itself', sd: expect.closeTo(0.0173, 4) },
    ]);
    expect(values('half-life', { nuclide: 'sr90', evaluation: 'DDEP' })).toMatchObject({
      published: '28.8 ± 0.07 a_t',
      source: 'DDEP evaluation, LNHB text file of 2005 (read)',
    });
    expect(() => values('decay', { activity: '1 Bq/kg', elapsed: '6 a' })).toThrow(/nuclide is missing/);
    expect(() => called('decay-correction', { ...given, deposited: '2027-01-01' })).toThrow(
      /deposition before/,
    );
  });

  it('210Pb by three models, the age’s uncertainty with the half-life’s', () => {
    const found = called('lead-210-constant-concentration', {
      surface: '80 ± 4 mBq/kg',
      concentration: '5.0 ± 0.5 mBq/kg',
    });
    expect(found.age!.value).toBeCloseTo(88.8 * (365.2422 / 365.25), 4);
    const [t, u] = [22.2, 0.22];
    expect(found.age!.sd as number).toBeCloseTo(
      Math.hypot((t / Math.LN2) * 0.05, (t / Math.LN2) * 0.1, 4 * u),
      1,
    );
    const samples = {
      depths: '1 3 5 7 m w.e.',
      concentrations: '80 65 52 44 mBq/kg',
      sds: '4 3.5 3 2.5 mBq/kg',
    };
    const flux = called('lead-210-constant-flux', samples);
    expect(flux.accumulation!.value).toBeGreaterThan(0.2);
    expect(flux.accumulation!.sd as number).toBeGreaterThan(0.01 * (flux.accumulation!.value as number));
    expect(() => called('lead-210-constant-flux', { ...samples, depths: '1 3 5 m w.e.' })).toThrow(
      /there are 3 depths/,
    );
    const supply = values('lead-210-constant-supply', {
      boundaries: '0 2 4 6 8 10 m w.e.',
      concentrations: '80 60 42 30 20 mBq/kg',
      sds: '4 3.5 3 2.5 2 mBq/kg',
      tail: '36 Bq/m2',
      tailSd: '4 Bq/m2',
    });
    expect((supply.ages as number[])[5]).toBeCloseTo(84.26808 * (365.2422 / 365.25), 4);
  });

  it('names a page and a source for each, each name once', () => {
    expect(new Set(datingRelations.map(({ name }) => name)).size).toBe(datingRelations.length);
    for (const { page, source, name } of datingRelations) {
      expect(['flow-ages', 'layer-counting', 'epochs-and-dates', 'decay', 'lead-210', 'horizons']).toContain(
        page,
      );
      expect(source.length, name).toBeGreaterThan(20);
    }
  });
});
