import { describe, expect, it } from 'vitest';
import { seeded } from '../../random/index.ts';
import { between, gamma2, heavy, logNormal, pick, rounded } from './draws.ts';

const COUNT = 200_000;
const many = (draw: () => number) => Array.from({ length: COUNT }, draw).sort((a, b) => a - b);
const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const below = (sorted: readonly number[], x: number) => sorted.findIndex((value) => value >= x) / COUNT;

describe('draws have the distributions that they say', () => {
  it("heavy: Student's t with 4 degrees, its tails as in tables (P(t > 2.776) = 0.025, P(t > 4.604) = 0.005)", () => {
    // two-sided 5 % and 1 % points of Student's t, 4 degrees of freedom, as tabulated (from memory)
    const random = seeded(1);
    const values = many(() => heavy(random));
    expect(below(values, 2.776 * Math.SQRT1_2)).toBeCloseTo(0.975, 2);
    expect(below(values, -4.604 * Math.SQRT1_2)).toBeCloseTo(0.005, 3);
  });
  it('gamma2: mean as given, variance half its square, distribution function 1 - (1 + x) exp(-x)', () => {
    const random = seeded(2);
    const values = many(() => gamma2(random, 2));
    expect(mean(values)).toBeCloseTo(2, 1);
    expect(mean(values.map((value) => (value - 2) ** 2))).toBeCloseTo(2, 1);
    for (const x of [0.2, 1, 3]) expect(below(values, x)).toBeCloseTo(1 - (1 + x) * Math.exp(-x), 2);
  });
  it('logNormal: half lie below the median, 84.1 % below one standard deviation of the log', () => {
    const random = seeded(3);
    const values = many(() => logNormal(random, 5, 0.8));
    expect(below(values, 5)).toBeCloseTo(0.5, 2);
    expect(below(values, 5 * Math.exp(0.8))).toBeCloseTo(0.841, 2);
  });
  it('between stays between', () => {
    const random = seeded(4);
    const values = many(() => between(random, -1, 3));
    expect(values[0]).toBeGreaterThanOrEqual(-1);
    expect(values[COUNT - 1]).toBeLessThan(3);
    expect(mean(values)).toBeCloseTo(1, 1);
  });
  it('pick gives each word its share of the sum of shares, and never one with share 0', () => {
    const random = seeded(5);
    const count = { a: 0, b: 0, c: 0 };
    for (let i = 0; i < COUNT; i++) count[pick(random, { a: 3, b: 1, c: 0 })]++;
    expect(count.a / COUNT).toBeCloseTo(0.75, 2);
    expect(count.c).toBe(0);
  });
  it('rounded leaves no digits beyond the step', () => {
    expect(rounded(0.1 + 0.2, 0.001)).toBe(0.3);
    expect(rounded(12.345, 0.01)).toBe(12.35);
    expect(rounded(0.0126, 0.005)).toBe(0.015);
  });
});
