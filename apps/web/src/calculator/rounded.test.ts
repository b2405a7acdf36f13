import { describe, expect, it } from 'vitest';
import { rounded } from './rounded.ts';

describe('rounded', () => {
  // Review of Particle Physics, introduction, "Rounding", its two examples (from memory).
  it('keeps two digits of an uncertainty of 0.119 and one of 0.367', () => {
    expect(rounded(0.827, 0.119, 'en')).toEqual({ value: '0.83', sd: '0.12' });
    expect(rounded(0.827, 0.367, 'en')).toEqual({ value: '0.8', sd: '0.4' });
  });
  it('an uncertainty of 950 to 999 becomes 1000 and keeps two digits', () => {
    expect(rounded(12.3456, 0.0967, 'en')).toEqual({ value: '12.35', sd: '0.10' });
  });
  it('tens and hundreds are rounded away with a large uncertainty', () => {
    expect(rounded(8317.8, 412, 'en')).toEqual({ value: '8300', sd: '400' });
    expect(rounded(27631, 1840, 'en')).toEqual({ value: '27600', sd: '1800' });
  });
  it('three digits stand where no uncertainty is known', () => {
    expect(rounded(918.871, null, 'en')).toEqual({ value: '919', sd: null });
    expect(rounded(0.0383, 0, 'en')).toEqual({ value: '0.0383', sd: null });
    expect(rounded(0, null, 'en')).toEqual({ value: '0', sd: null });
  });
  it('below zero has the sign that is read as one; the reader’s decimal sign', () => {
    expect(rounded(-19.8, 14, 'de')).toEqual({ value: '\u221220', sd: '14' });
    expect(rounded(7.812, 1.16, 'de')).toEqual({ value: '7,8', sd: '1,2' });
  });
});
