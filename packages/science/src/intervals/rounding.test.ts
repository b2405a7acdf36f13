import { describe, expect, it } from 'vitest';
import { halfUnits } from './rounding.ts';

const printed = (texts: readonly string[]) =>
  texts.map((text) => {
    const places = text.split('.')[1] ?? '';
    return text === '' ? null : { decimals: places.length, endsInZero: places.endsWith('0') };
  });

describe('halfUnits', () => {
  it('is half a unit in the last printed place of each figure where closing zeros are kept', () => {
    expect([...halfUnits(printed(['0.50', '1.1', '2']))]).toEqual([0.005, 0.05, 0.5]);
  });

  it('counts every figure to the customary decimals where closing zeros were dropped', () => {
    expect([...halfUnits(printed(['0.55', '1.1', '1.65', '22']))]).toEqual([0.005, 0.005, 0.005, 0.005]);
  });

  it('does not take the noise of one binary fraction for the decimals of the column', () => {
    const column = [...Array.from({ length: 40 }, () => '0.1'), '0.30000000000000004'];
    const halves = halfUnits(printed(column));
    expect([halves[0], halves[40]]).toEqual([0.05, 0.5e-9]);
  });

  it('is in metres: a centimetre column printed to one decimal has half a millimetre', () => {
    expect(halfUnits(printed(['54.3', '50.0']), 0.01)[0]).toBeCloseTo(0.0005, 12);
  });

  it('is NaN for an empty cell', () => {
    expect(halfUnits(printed(['', '1.0']))[0]).toBeNaN();
  });
});
