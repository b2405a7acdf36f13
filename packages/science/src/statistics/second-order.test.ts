import { describe, expect, it } from 'vitest';
import { gauge, quantities } from './end-gauge.suite.ts';
import { secondOrder } from './second-order.ts';

describe('secondOrder', () => {
  it('GUM H.1: 34 nm, by 11.9 and 1.7 nm of the two products without a slope', () => {
    const { sd, firstOrderSd, terms } = secondOrder(gauge, quantities);
    expect(sd).toBeCloseTo(33.91, 2);
    expect(firstOrderSd).toBeCloseTo(31.71, 2);
    const part = (i: number, j: number) =>
      Math.sqrt(terms.find(({ of }) => of[0] === i && of[1] === j)?.variance ?? Number.NaN);
    expect(part(3, 4)).toBeCloseTo(11.9, 1);
    expect(part(2, 5)).toBeCloseTo(1.7, 1);
  });
  it('of a square at 0 it is the root of 2 times u^2, which the distribution itself has', () => {
    expect(secondOrder(([x]) => x * x, [{ value: 0, sd: 3 }]).sd).toBeCloseTo(Math.SQRT2 * 9, 10);
  });
  it('of a cube, worked out by hand: f_i^2 u^2 + (f_ii^2/2 + f_i f_iii) u^4', () => {
    const [x, u] = [2, 0.3];
    const by = (3 * x * x) ** 2 * u ** 2 + ((6 * x) ** 2 / 2 + 3 * x * x * 6) * u ** 4;
    expect(secondOrder(([a]) => a ** 3, [{ value: x, sd: u }]).sd ** 2).toBeCloseTo(by, 10);
  });
  it('refuses a formula so bent that the second order would be below 0', () => {
    expect(() => secondOrder(([x]) => Math.sin(x), [{ value: 0.2, sd: 1.5 }])).toThrow(/take away more/);
  });
});
