import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';

const run = (name: string, given: Readonly<Record<string, string>>) => {
  const results = called(name, given);
  return (key: string) => results[key]?.value;
};

const pearson = {
  x: '0 0.9 1.8 2.6 3.3 4.4 5.2 6.1 6.5 7.4',
  y: '5.9 5.4 4.4 4.6 3.5 3.7 2.8 2.8 2.4 1.5',
};

describe('relations of statistics, as a person writes to them', () => {
  it('straight-line: the weighted line of the sheet', () => {
    const line = run('straight-line', {
      x: '1 2 3 4 5',
      y: '2.1 3.9 6.2 7.8 10.1',
      sd: '0.1 0.1 0.2 0.2 0.4',
    });
    expect(line('intercept')).toBeCloseTo(0.094577007, 9);
    expect(line('slopeSd')).toBeCloseTo(0.059644645, 9);
  });
  it('straight-line: one deviation for all, scaled', () => {
    const line = run('straight-line', {
      x: '1 2 3 4 5',
      y: '2.1 3.9 6.2 7.8 10.1',
      sd: '1',
      covariance: 'scaled',
    });
    expect(line('slope')).toBeCloseTo(1.99, 12);
    expect(() => run('straight-line', { x: '1 2 3', y: '2 3 5', sd: '1 2' })).toThrow(
      /2 standard deviations for 3/,
    );
  });
  it('polynomial: coefficients of a parabola', () => {
    const fit = run('polynomial', { x: '0 1 2 3 4', y: '1 2 5 10 17.5', degree: '2' });
    expect((fit('coefficients') as number[])[2]).toBeCloseTo(1.0714286, 6);
  });
  it('fit-curve: NIST StRD DanWood from its first start', () => {
    const fit = run('fit-curve', {
      x: '1.309 1.471 1.49 1.565 1.611 1.68',
      y: '2.138 3.421 3.597 4.34 4.882 5.66',
      curve: 'power',
      start: '1 5',
    });
    expect((fit('parameters') as number[])[1]).toBeCloseTo(3.8604055871, 7);
    expect(() => run('fit-curve', { x: '1 2 3', y: '1 2 3', start: '1' })).toThrow(/2 for saturating/);
  });
  it('line-both-variables: one error for all', () => {
    const line = run('line-both-variables', { ...pearson, xSd: '0.1', ySd: '0.2' });
    expect(line('slope')).toBeCloseTo(-0.5412, 3);
  });
  it('propagate: the density of a piece of core, with its parts', () => {
    const density = run('propagate', {
      formula: 'm / (pi / 4 * d^2 * l)',
      quantities: 'm = 3.61 ± 0.002; d = 0.0981 ± 0.0004 dof 4; l = 0.52 ± 0.003',
    });
    const [m, d, l] = [0.002 / 3.61, (2 * 0.0004) / 0.0981, 0.003 / 0.52];
    expect(density('sd')).toBeCloseTo(Number(density('value')) * Math.hypot(m, d, l), 3);
    expect(density('degrees')).toBeCloseTo((4 * Math.hypot(m, d, l) ** 4) / d ** 4, 3);
  });
  it('propagate: nothing but known spreads has no end of degrees', () => {
    const sum = run('propagate', { formula: 'a + b', quantities: 'a = 1 ± 0.3; b = 2 ± 0.4' });
    expect(sum('degrees')).toBeNull();
    expect(sum('expanded')).toBeCloseTo(0.5 * 1.959964, 6);
  });
  it('propagate-by-drawing: where a slope is 0 it says that the first order would not do', () => {
    const square = run('propagate-by-drawing', { formula: 'x^2', quantities: 'x = 0 ± 1' });
    expect(square('firstOrder')).toBe('no');
    expect(Number(square('sd'))).toBeCloseTo(Math.SQRT2, 1);
    const straight = run('propagate-by-drawing', { formula: '2 * x', quantities: 'x = 3 ± 1', seed: '4' });
    expect(straight('firstOrder')).toBe('yes');
  });
  it('correlation-with-memory and block-bootstrap-correlation run on the same series', () => {
    const memory = run('correlation-with-memory', pearson);
    const blocks = run('block-bootstrap-correlation', { ...pearson, seed: '3' });
    expect(memory('correlation')).toBe(blocks('correlation'));
    expect(Number(blocks('low'))).toBeLessThan(Number(blocks('high')));
  });
  it('align-series: the path is numbered from 1', () => {
    const aligned = run('align-series', { first: '0 1 3 2 0 1', second: '0 2 3 1 1' });
    expect(aligned('cost')).toBe(5);
    expect((aligned('firstPath') as number[]).at(-1)).toBe(6);
  });
  it('the rest: the numbers of the sheet', () => {
    expect(run('effective-pairs', { n: '150', a: '-0.3', b: '0.4' })('effective')).toBe(150);
    expect(run('effective-values', { n: '100', a: '0.7' })('exact')).toBeCloseTo(18.145161, 6);
    expect(run('persistence-time', { a: '0.7', step: '6 mo' })('time')).toBeCloseTo(1.401836, 5);
    expect(run('block-length', { n: '80', a: '0.8' })('rounded')).toBe(13);
    expect(run('coverage-factor', { level: '0.99', degrees: '16.7' })('factor')).toBeCloseTo(2.92, 2);
    expect(run('correlation-test', { r: '0.35', n: '48.148148' })('p')).toBeCloseTo(0.01458191, 7);
    expect(run('autocorrelation', { values: '1 2 4 3 5' })('autocorrelation')).toEqual([1, 0.1]);
    expect(run('quantile', { values: '2.1 9.7 4.4 7.3 5.2 3.9 8.8', share: '0.1' })('quantile')).toBeCloseTo(
      3.18,
      12,
    );
    expect(run('weighted-mean', { values: '10.2 9.7', sd: '0.2 0.3' })('mean')).toBeCloseTo(10.0461538, 6);
    expect(run('monotone-spline', { x: '0 1 3', y: '1 3 7', at: '0.5 2' })('values')).toEqual([2, 5]);
    expect(run('change-points', { values: '1 2 1.1 1.9 8 9.1 8.2 9' })('starts')).toEqual([1, 5]);
    expect(run('minimal-standard', { seed: '1', count: '2' })('numbers')).toEqual([16807, 282475249]);
    expect(run('smoothing-spline', { x: '0 1 2 3 4', y: '0 1 2 3 4.5' })('values')).toHaveLength(5);
  });
});
