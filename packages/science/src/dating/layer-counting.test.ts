import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countedAge, countingConventions } from './layer-counting.ts';

describe('age by annual layers', () => {
  // an uncertain layer is 0.5 ± 0.5 a, Andersen et al. 2006 (abstract); numbers by hand
  it.each([
    [100, 0, 100, 0, 0, 0],
    [95, 10, 100, 5, 2.5, 1.5811],
    [8000, 198, 8099, 99, 49.5, 7.0356],
    [1000, 60, 1030, 30, 15, 3.873],
  ])(
    '%d certain and %d uncertain are %d a, MCE %d, 1 sigma %d, as independent ones %d',
    (n, u, age, mce, sd, own) => {
      expect(countedAge(n, u)).toEqual({ age, mce, sd, convention: 'half the MCE' });
      expect(countedAge(n, u, 'the MCE').sd).toBe(mce);
      expect(countedAge(n, u, 'independent layers').sd).toBeCloseTo(own, 4);
    },
  );

  it('adds up over stretches by the convention, in squares for independent layers', () =>
    fc.assert(
      fc.property(fc.nat(5000), fc.nat(300), fc.nat(5000), fc.nat(300), (n1, u1, n2, u2) => {
        for (const convention of countingConventions) {
          const [above, below] = [countedAge(n1, u1, convention), countedAge(n2, u2, convention)];
          const whole = countedAge(n1 + n2, u1 + u2, convention);
          expect(whole.age).toBeCloseTo(above.age + below.age, 9);
          expect(whole.mce).toBeCloseTo(above.mce + below.mce, 9);
          expect(whole.sd).toBeCloseTo(
            convention === 'independent layers' ? Math.hypot(above.sd, below.sd) : above.sd + below.sd,
            9,
          );
        }
      }),
    ));

  it('refuses counts below nothing and what is no number', () => {
    expect(() => countedAge(-1, 3)).toThrow(/certain layers are -1/);
    expect(() => countedAge(5, Number.NaN)).toThrow(/uncertain layers are NaN/);
    expect(() => countedAge(5, Number.POSITIVE_INFINITY)).toThrow(/0 to 10,000,000/);
  });
});
