import { describe, expect, it } from 'vitest';
import { contrast } from './contrast.ts';

describe('contrast', () => {
  // WCAG 2.2 itself: black on white is 21:1, a colour on itself 1:1.
  it('of black on white is 21, either way round, and of a colour on itself 1', () => {
    expect(contrast('#000000', '#ffffff')).toBe(21);
    expect(contrast('#ffffff', '#000000')).toBe(21);
    expect(contrast('#123456', '#123456')).toBe(1);
  });

  // W3C's technique page G18 names #767676 as (about) the lightest grey that passes 4.5:1 on white; from memory.
  it('puts #767676 on white just above 4.5 and #777777 just below', () => {
    expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5);
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
  });

  it('of something that is no colour says so', () => {
    expect(() => contrast('blue', '#ffffff')).toThrow('"blue" is no colour of the form #rrggbb');
  });
});
