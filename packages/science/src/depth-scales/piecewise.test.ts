import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lastAtMost, longestRise, piecewise } from './piecewise.ts';

describe('lastAtMost', () => {
  it('finds the last of equal knots, and -1 above all', () => {
    const xs = [1, 2, 2, 5];
    expect([0.9, 1, 2, 4.9, 5, 9].map((x) => lastAtMost(xs, x))).toEqual([-1, 0, 2, 2, 3, 3]);
  });
});

describe('piecewise', () => {
  it('is linear between knots and goes on with slope 1', () => {
    const f = piecewise([1, 3, 4], [10, 16, 17]);
    expect([0, 1, 2, 3.5, 4, 6].map(f)).toEqual([9, 10, 13, 16.5, 17, 19]);
  });
});

describe('longestRise', () => {
  it('is as long as the longest that a look at every subset finds', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 10 }), (values) => {
        const picks = longestRise(values).map((i) => values[i]);
        picks.forEach((value, i) => {
          if (i > 0) expect(value).toBeGreaterThan(picks[i - 1]);
        });
        let longest = 0;
        for (let set = 0; set < 2 ** values.length; set++) {
          const chosen = values.filter((_, i) => (set >> i) % 2 === 1);
          if (chosen.every((value, i) => i === 0 || value > chosen[i - 1]))
            longest = Math.max(longest, chosen.length);
        }
        expect(picks.length).toBe(longest);
      }),
      { numRuns: 100, seed: 3 },
    );
  });
});
