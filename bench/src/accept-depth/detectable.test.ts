import { describe, expect, it } from 'vitest';
import { factorise } from './cholesky.ts';
import { normalEquations } from './dense.ts';
import { smallestSeen } from './detectable.ts';
import { equations } from './equations.ts';

describe('smallestSeen', () => {
  it('one of n equal readings of one quantity: 2.80 sd / sqrt(1 - 1/n) (W. Baarda 1968, from memory)', () => {
    for (const n of [2, 3, 10]) {
      const e = equations();
      const quantity = e.unknown();
      for (let i = 0; i < n; i++)
        e.observe([[quantity, 1]], 5, 0.02 ** 2, [{ reading: `reading ${i}`, by: 1 }]);
      const { matrix } = normalEquations(e.list, e.size());
      const seen = smallestSeen(factorise(matrix, e.size()), e.list, [{ reading: 'reading 0', by: 1 }]);
      expect(seen).toBeCloseTo((2.8016 * 0.02) / Math.sqrt(1 - 1 / n), 9);
    }
  });
  it('a reading that alone fixes its unknown hides any slip', () => {
    const e = equations();
    const quantity = e.unknown();
    e.observe([[quantity, 1]], 5, 0.02 ** 2, [{ reading: 'alone', by: 1 }]);
    const { matrix } = normalEquations(e.list, e.size());
    expect(smallestSeen(factorise(matrix, e.size()), e.list, [{ reading: 'alone', by: 1 }])).toBe(
      Number.POSITIVE_INFINITY,
    );
  });
  it('a shift of all readings at once can’t be seen', () => {
    const e = equations();
    const quantity = e.unknown();
    for (const reading of ['a', 'b']) e.observe([[quantity, 1]], 5, 1, [{ reading, by: 1 }]);
    const { matrix } = normalEquations(e.list, e.size());
    const both = ['a', 'b'].map((reading) => ({ reading, by: 1 }));
    expect(smallestSeen(factorise(matrix, e.size()), e.list, both)).toBe(Number.POSITIVE_INFINITY);
  });
});
