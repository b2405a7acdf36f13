import { describe, expect, it } from 'vitest';
import { hydrogenOfPh, phOfHydrogen } from './acidity.ts';

describe('acidity', () => {
  it('pH 5.3 is 5.011872 ueq/l, and back', () => {
    expect(hydrogenOfPh(5.3)).toBeCloseTo(5.011872, 6);
    expect(phOfHydrogen(5.011872336)).toBeCloseTo(5.3, 9);
  });
  it('refuses a pH of 15 and hydrogen ions of none', () => {
    expect(() => hydrogenOfPh(15)).toThrow(/pH is 15; allowed: 0 to 14/);
    expect(() => phOfHydrogen(0)).toThrow(/1e-8 to 1000000 ueq\/l/);
  });
});
