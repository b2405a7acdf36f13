import { describe, expect, it } from 'vitest';
import { readFormula } from './formula.ts';

describe('readFormula', () => {
  it.each([
    ['2 + 3 * 4', 14],
    ['(2 + 3) * 4', 20],
    ['2 - 3 - 4', -5],
    ['24 / 4 / 3', 2],
    ['2 ^ 3 ^ 2', 512],
    ['-2 ^ 2', -4],
    ['2 ^ -1', 0.5],
    ['-(-3)', 3],
    ['1.5e-3 * 2E3', 3],
    ['sqrt(16) + ln(exp(2))', 6],
    ['cos(pi)', -1],
    ['.5 * 4.', 2],
  ])('%s is %d', (text, value) => {
    expect(readFormula(text).value([])).toBeCloseTo(value, 12);
  });
  it('names its quantities in the order in which they first stand', () => {
    const { names, value } = readFormula('m / (pi / 4 * d^2 * l) + 0 * m');
    expect(names).toEqual(['m', 'd', 'l']);
    expect(value([3.61, 0.0981, 0.52])).toBeCloseTo(3.61 / ((Math.PI / 4) * 0.0981 ** 2 * 0.52), 10);
  });
  it.each([
    ['', /the end/],
    ['2 +', /the end/],
    ['(1 + 2', /where \) should/],
    ['1 2', /after the end/],
    ['a $ b', /can't be read/],
    ['sqr(2)', /no function sqr/],
    ['constructor(1)', /no function constructor/],
    ['__proto__(1)', /no function/],
    ['alert(1);', /can't be read/],
    ['1'.repeat(3000), /3000 characters/],
    ['('.repeat(400), /nested too deep/],
  ])('refuses %s', (text, why) => {
    expect(() => readFormula(text)).toThrow(why);
  });
});
