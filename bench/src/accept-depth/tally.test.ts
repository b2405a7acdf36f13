import { describe, expect, it } from 'vitest';
import { median, shareOf } from './tally.ts';

describe('counting', () => {
  it('median of odd and even counts', () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 2, 3])).toBe(2.5);
  });
  it('the standard error of a share is the binomial one where every season is one depth', () => {
    const seasons = Array.from({ length: 400 }, (_, i) => ({ all: 1, inside: i < 380 ? 1 : 0 }));
    const { share, error } = shareOf(seasons);
    expect(share).toBe(0.95);
    expect(error).toBeCloseTo(Math.sqrt((0.95 * 0.05) / 400), 12);
  });
  it('and twenty times larger where the 400 depths of a season go astray together', () => {
    const seasons = Array.from({ length: 400 }, (_, i) => ({ all: 400, inside: i < 380 ? 400 : 0 }));
    expect(shareOf(seasons).error).toBeCloseTo(Math.sqrt((0.95 * 0.05) / 400), 12);
  });
});
