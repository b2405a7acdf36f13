import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { oneWay } from './analysis-of-variance.ts';

/** Five numbers of a given mean and standard deviation. */
const five = (mean: number, sd: number) => {
  const shape = [-2, -1, 0, 1, 2];
  return shape.map((x) => mean + (x * sd) / Math.sqrt(2.5));
};

describe('one-way analysis of variance', () => {
  it('gives 57, 128, 85 and 43 uV of the Zener voltage standard, JCGM 100:2008 H.5 (table from memory)', () => {
    // ten days, five readings each: daily means less 10.000 000 V and standard deviations, uV
    const means = [172, 116, 13, 144, 106, 31, 60, 125, 163, 41];
    const sds = [60, 77, 111, 101, 67, 93, 80, 73, 88, 86];
    const found = oneWay(means.map((mean, i) => five(mean, sds[i])));
    expect(found.mean).toBeCloseTo(97.1, 6);
    expect(found.withinDegrees).toBe(40);
    expect(found.betweenDegrees).toBe(9);
    expect(Math.sqrt(found.within)).toBeCloseTo(85, 0);
    expect(Math.sqrt(5 * found.between + found.within)).toBeCloseTo(128, 0);
    expect(Math.sqrt(found.between)).toBeCloseTo(43, 0);
    expect(Math.sqrt(found.between + found.within / 5)).toBeCloseTo(57, 0);
  });

  it('does not change when all readings move together, and grows by the square of a scale', () => {
    const groups = fc.array(
      fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 2, maxLength: 6 }),
      {
        minLength: 2,
        maxLength: 8,
      },
    );
    fc.assert(
      fc.property(groups, (given) => {
        const plain = oneWay(given);
        const moved = oneWay(given.map((group) => group.map((x) => 3 * x + 7)));
        expect(Math.abs(moved.within - 9 * plain.within)).toBeLessThan(1e-9);
        expect(Math.abs(moved.between - 9 * plain.between)).toBeLessThan(1e-9);
      }),
    );
  });

  it('says nothing of what one reading a group, or one group, cannot tell', () => {
    expect(oneWay([[1], [2]]).within).toBeNaN();
    expect(oneWay([[1, 2]]).between).toBeNaN();
  });
});
