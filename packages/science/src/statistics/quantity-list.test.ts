import { describe, expect, it } from 'vitest';
import { readQuantities } from './quantity-list.ts';

describe('readQuantities', () => {
  it('reads known values, spreads, degrees of freedom, and limits', () => {
    const all = readQuantities('k = 4; m = 3.61 ± 0.02; d = 9.8e-2 +- 4e-4 dof 4, l = 0.51..0.57', [
      'l',
      'k',
      'd',
      'm',
    ]);
    expect(all.map(({ name }) => name)).toEqual(['l', 'k', 'd', 'm']);
    const [l, k, d, m] = all;
    expect(l.first.value).toBeCloseTo(0.54, 14);
    // JCGM 100:2008, 4.3.7: half the width over the root of 3
    expect(l.first.sd).toBeCloseTo(0.03 / Math.sqrt(3), 14);
    expect(l.drawn).toEqual({ kind: 'rectangular', low: 0.51, high: 0.57 });
    expect(k.first).toEqual({ value: 4, sd: 0 });
    expect(d.first).toEqual({ value: 0.098, sd: 4e-4, degrees: 4 });
    expect(d.drawn).toEqual({ kind: 'student', mean: 0.098, scale: 4e-4, degrees: 4 });
    expect(m.drawn).toEqual({ kind: 'normal', mean: 3.61, sd: 0.02 });
  });
  it('refuses what it cannot read, names twice, missing or foreign, limits the wrong way round', () => {
    expect(() => readQuantities('a : 3', ['a'])).toThrow(/can't be read/);
    expect(() => readQuantities('a = 3; a = 4', ['a'])).toThrow(/a stands twice/);
    expect(() => readQuantities('a = 3', ['a', 'b'])).toThrow(/b of the formula is missing/);
    expect(() => readQuantities('a = 3; c = 1', ['a'])).toThrow(/has no c/);
    expect(() => readQuantities('a = 5..3', ['a'])).toThrow(/lower limit first/);
  });
});
