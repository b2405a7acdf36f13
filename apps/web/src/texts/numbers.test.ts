import { describe, expect, it } from 'vitest';
import { depth, metres, moment, number, shortLength } from './numbers.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('numbers as the reader writes them', () => {
  it('depth: one breath of figure, unit and uncertainty, decimals by the uncertainty', () => {
    expect(plain(depth({ value: 29.4812, sd: 0.031 }, 'en'))).toBe('29.48 m ± 3 cm');
    expect(plain(depth({ value: 0.4262, sd: 0.0042 }, 'en'))).toBe('0.426 m ± 4 mm');
    expect(plain(depth({ value: 3085.17, sd: 2.13 }, 'en'))).toBe('3085.2 m ± 2.1 m');
  });
  it('depth: never claims less than a millimetre of uncertainty', () => {
    expect(plain(depth({ value: 1, sd: 0.0002 }, 'en'))).toBe('1.000 m ± 1 mm');
  });
  it('depth: follows the locale', () => {
    expect(plain(depth({ value: 29.4812, sd: 0.031 }, 'de'))).toBe('29,48 m ± 3 cm');
  });
  it('shortLength: whole centimetres without a decimal, small ones in millimetres', () => {
    expect(plain(shortLength(0.426, 'en'))).toBe('42.6 cm');
    expect(plain(shortLength(0.03, 'en'))).toBe('3 cm');
    expect(plain(shortLength(0.004, 'en'))).toBe('4 mm');
  });
  it('metres and number: no minus before a zero', () => {
    expect(plain(metres(0.967, 'en'))).toBe('0.97 m');
    expect(number(-0.001, 2, 'en')).toBe('0.00');
  });
  it('moment: the time that the person said, whatever the zone of the reader (J7)', () => {
    expect(moment('2026-06-14T11:42:00+05:45', 'en-GB')).toMatch(/14 June.*11:42/);
  });
});
