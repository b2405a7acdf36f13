import { describe, expect, it } from 'vitest';
import '../texts/for-calculator.ts';
import { bare, figure, length, spoken, time } from './figures.ts';

/** As a reader who writes a point sees it. */
const plain = (text: string) => text.replaceAll('\u00a0', ' ').replace(/(\d),(\d)/g, '$1.$2');

describe('numbers with their uncertainty', () => {
  const days = { value: 7.812, sd: 1.16, unit: 'd' };
  it('figure, spoken and bare: for the eye, for the ear, and alone', () => {
    expect(plain(figure(days))).toBe('7.8 ± 1.2 days');
    expect(plain(spoken(days))).toBe('7.8 days, give or take 1.2');
    expect(plain(bare(days))).toBe('7.8 days');
    expect(plain(spoken({ value: 643.2, sd: null, unit: 'kg/m3' }))).toBe('643 kg/m³');
  });
  it('time: minutes to two hours, hours to two days, days to two years', () => {
    const said = (value: number, unit: string) => plain(bare(time({ value, sd: null, unit })));
    expect(said(1.25, 'h')).toBe('75.0 min');
    expect(said(0.81, 'd')).toBe('19.4 hours');
    expect(said(400, 'd')).toBe('400 days');
    expect(said(9131.25, 'd')).toBe('25.0 years');
  });
  it('length: in the unit of a bench, its uncertainty with it', () => {
    expect(plain(figure(length({ value: 0.147, sd: 0.022, unit: 'm' })))).toBe('14.7 ± 2.2 cm');
    expect(plain(figure(length({ value: 0.0042, sd: 0.0006, unit: 'm' })))).toBe('4.2 ± 0.6 mm');
    expect(plain(figure(length({ value: 1.31, sd: 0.28, unit: 'm' })))).toBe('1.31 ± 0.28 m');
  });
});
