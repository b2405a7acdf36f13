import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findBagLength } from './bag-length.ts';

const bags = (length: number, numbers: readonly number[], by: (k: number) => number = () => 0) =>
  numbers.map((k) => ({
    bag: { first: k, last: k },
    top: { value: Number(((k - 1) * length + by(k)).toFixed(2)), half: 0.005 },
  }));
const count = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

describe('findBagLength', () => {
  it('finds every length of whole millimetres from 120 bags rounded to centimetres', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 1500 }), (millimetres) => {
        expect(findBagLength(bags(millimetres / 1000, count(120)))?.value).toBe(millimetres / 1000);
      }),
    );
  });

  it('is not moved by slips in a fifth of the rows, nor by a shift of everything below a place', () => {
    expect(findBagLength(bags(0.55, count(200), (k) => (k % 10 === 3 ? 0.2 : 0)))?.value).toBe(0.55);
    expect(findBagLength(bags(0.55, count(400), (k) => (k > 40 ? 0.07 : 0)))?.value).toBe(0.55);
  });

  it('works where bags are missing and where only their lengths are written', () => {
    expect(findBagLength(bags(0.5, [1, 2, 5, 6, 7, 12]))?.value).toBe(0.5);
    const lengths = [1, 2, 3].map((k) => ({
      bag: { first: k, last: k },
      length: { value: 0.55, half: 0.005 },
    }));
    expect(findBagLength(lengths)?.value).toBe(0.55);
  });

  it('is null where the table does not tell', () => {
    expect(findBagLength([])).toBeNull();
    const uneven = [0, 0.31, 0.95, 2].map((value, i) => ({
      bag: { first: i + 1, last: i + 1 },
      top: { value, half: 0.005 },
    }));
    expect(findBagLength(uneven)).toBeNull();
  });
});
