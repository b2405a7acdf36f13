import { describe, expect, it } from 'vitest';
import { arsenic } from './arsenic.suite.ts';
import { readCensored } from './censored.ts';
import { kaplanMeier } from './kaplan-meier.ts';

describe('Kaplan-Meier of values below limits', () => {
  // Helsel 2005 ch. 6, by two programs outside of the project that agree in all digits
  it('the arsenic: mean 0.9489583, sd 0.8068068, median 0.7', () => {
    const { mean, sd, median, meanSd, rest } = kaplanMeier(arsenic);
    expect(mean).toBeCloseTo(0.9489583, 7);
    expect(sd).toBeCloseTo(0.8068068, 7);
    expect(meanSd).toBeCloseTo(0.8068068 / Math.sqrt(24), 7);
    expect(median).toBe(0.7);
    expect(rest).toBe(0);
  });

  it.each([
    [2.8, 0.9166667],
    [1.7, 0.8511905],
    [1.5, 0.7857143],
    [0.9, 0.6875],
    [0.7, 0.4583333],
    [0.6, 0.34375],
  ])('of the arsenic the share below %d is %d', (value, share) => {
    const step = kaplanMeier(arsenic).steps.find((one) => one.value === value);
    expect(step!.below).toBeCloseTo(share, 7);
  });

  it('a value equal to a limit comes before it: the limit is still at risk there', () => {
    // by hand: at 2 there are 2, <2, 1: F falls to 2/3, at 1 to 0
    const { steps, mean } = kaplanMeier(readCensored('<2 2 1'));
    expect(steps.map(({ below }) => below)).toEqual([2 / 3, 0]);
    expect(mean).toBeCloseTo(2 / 3 + 2 / 3, 12);
  });

  it('what lies below the least detected value stays open: from zero to the least limit', () => {
    const { rest, mean, meanLeast, median } = kaplanMeier(readCensored('<1 <1 <1 <1 3 5'));
    expect(rest).toBeCloseTo(4 / 6, 12);
    expect(meanLeast).toBeCloseTo(8 / 6, 12);
    expect(mean).toBeCloseTo(12 / 6, 12);
    expect(median).toBeNull();
  });

  it('the standard error of a share without limits is that of a binomial one', () => {
    const { steps } = kaplanMeier(readCensored('1 2 3 4 5'));
    expect(steps[1]!.below).toBeCloseTo(0.6, 12);
    expect(steps[1]!.sd).toBeCloseTo(Math.sqrt((0.6 * 0.4) / 5), 12);
  });
});
