import { describe, expect, it } from 'vitest';
import { halfLives } from '../constants/half-lives.ts';
import { halfLife } from './half-life.ts';

describe('half-lives', () => {
  // NUBASE2020, its data file
  it.each([
    ['H-3', 12.32, 0.02],
    ['Be-10', 1_387_000, 12_000],
    ['C-14', 5700, 30],
    ['Ar-39', 268, 8],
    ['Sr-90', 28.91, 0.03],
    ['Cs-137', 30.04, 0.04],
    ['Pb-210', 22.2, 0.22],
    ['Am-241', 432.6, 0.6],
  ])('of %s is %d ± %d tropical years by NUBASE2020, nearly as many of 365.25 days', (nuclide, value, sd) => {
    const found = halfLife(nuclide);
    expect(found.published).toMatchObject({ value, sd, seen: 'read', unit: 'a_t' });
    expect(found.value / value).toBeCloseTo(365.2422 / 365.25, 7);
    expect(found.sd / sd).toBeCloseTo(365.2422 / 365.25, 7);
  });

  it('in days where the evaluation has days', () => {
    expect(halfLife('Be-7').published).toMatchObject({ value: 53.22, sd: 0.06, unit: 'd' });
    expect(halfLife('Po-210').value).toBeCloseTo(138.376 / 365.25, 12);
  });

  // DDEP: 90Sr 28.80(7) a = 908.8e6 s (LNHB 2005); 137Cs 947.3e6 s = 30.018(22) a
  it('differs between evaluations, and each can be chosen', () => {
    const julian = 365.25 * 86_400;
    expect((halfLife('Sr-90', 'DDEP').value * julian) / 1e6).toBeCloseTo(908.8, 1);
    expect((halfLife('Cs-137', 'DDEP').value * 365.25) / 365.2422).toBeCloseTo(30.018, 2);
    expect((halfLife('Cs-137', 'DDEP').sd * 365.25) / 365.2422).toBeCloseTo(0.022, 3);
    expect(halfLife('C-14', 'Libby').published.value).toBe(5568);
    expect(halfLife('C-14', 'Cambridge').published.value).toBe(5730);
  });

  it('takes a nuclide as people write it', () => {
    for (const name of ['137Cs', 'cs-137', ' Cs137 ', '137-CS'])
      expect(halfLife(name).nuclide).toBe('Cs-137');
  });

  it('refuses what it has not, and says what it has', () => {
    expect(() => halfLife('Xx-12')).toThrow(/there is no nuclide "Xx-12"; allowed: H-3, Be-7/);
    expect(() => halfLife('Ar-39', 'DDEP')).toThrow(/Ar-39 is not there by DDEP; allowed: NUBASE2020/);
    expect(() => halfLife('toString')).toThrow(/no nuclide/);
  });

  it('has 19 nuclides by NUBASE2020, each with an uncertainty', () => {
    const keys = Object.entries(halfLives).filter(([key]) => key.endsWith(' NUBASE2020'));
    expect(keys).toHaveLength(19);
    for (const [, { value, sd }] of Object.entries(halfLives)) {
      expect(sd).toBeGreaterThan(0);
      expect(sd / value).toBeLessThan(0.06);
    }
  });
});
