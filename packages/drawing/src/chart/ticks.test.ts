import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChartAxis } from './input.ts';
import { chartTicks } from './ticks.ts';

const axis = (from: number, to: number, log?: true): ChartAxis => ({
  label: 'depth',
  unit: 'm',
  from,
  to,
  ...(log ? { log } : {}),
});
const words = (from: number, to: number, most: number, log?: true) =>
  chartTicks(axis(from, to, log), most).ticks.flatMap(({ label }) =>
    label === null ? [] : 'digits' in label ? [label.digits] : [`10^${label.power}`],
  );

describe('chartTicks', () => {
  it('steps by 1, 2 or 5 times a power of ten', () => {
    expect(words(0, 100, 5)).toEqual(['0', '20', '40', '60', '80', '100']);
    expect(words(0, 43, 5)).toEqual(['0', '10', '20', '30', '40']);
    expect(words(0.31, 0.92, 8)).toEqual(['0.4', '0.5', '0.6', '0.7', '0.8', '0.9']);
  });

  it('has the same ticks on an axis that runs the other way', () => {
    expect(words(100, 0, 5)).toEqual(words(0, 100, 5));
  });

  it('writes minus signs of print and no minus before a zero', () => {
    expect(words(-60, 20, 5)).toEqual(['\u221260', '\u221240', '\u221220', '0', '20']);
    expect(words(-0.1, 0.1, 4)[2]).toBe('0.00');
  });

  it('counts large and small values in a power that the axis names', () => {
    expect(chartTicks(axis(0, 4e-9), 4)).toMatchObject({ power: -9 });
    expect(words(0, 4e-9, 4)).toEqual(['0', '1', '2', '3', '4']);
    expect(chartTicks(axis(0, 120_000), 6)).toMatchObject({ power: 3 });
    expect(chartTicks(axis(0, 40_000), 4)).toMatchObject({ power: 0 });
    expect(words(0, 40_000, 4)).toEqual(['0', '10\u2009000', '20\u2009000', '30\u2009000', '40\u2009000']);
  });

  it('names decades of a logarithmic axis, with 2 and 5 where there is room', () => {
    expect(words(10, 2000, 8, true)).toEqual(['10', '20', '50', '100', '200', '500', '1000', '2000']);
    expect(words(1e-9, 1e2, 6, true)).toEqual(['10^-9', '10^-7', '10^-5', '10^-3', '10^-1', '10^1']);
  });

  it('puts nine ticks into a decade, named or not', () => {
    expect(chartTicks(axis(1, 100, true), 3).ticks).toHaveLength(19);
  });

  it('on any axis: evenly spaced, inside, not more than asked for and one, each with a name of its own', () => {
    const ends = fc.tuple(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
    );
    fc.assert(
      fc.property(ends, fc.integer({ min: 3, max: 9 }), ([from, span], most) => {
        fc.pre(span > 1e-5 * Math.abs(from));
        const { ticks } = chartTicks(axis(from, from + span), most);
        expect(ticks.length).toBeLessThanOrEqual(most + 1);
        const steps = ticks.slice(1).map(({ value }, at) => value - ticks[at]!.value);
        for (const step of steps) expect(step / steps[0]!).toBeCloseTo(1, 5);
        for (const { value } of ticks) {
          expect(value).toBeGreaterThanOrEqual(from - 1e-6 * span);
          expect(value).toBeLessThanOrEqual(from + span * (1 + 1e-6));
        }
        const names = ticks.map(({ label }) => JSON.stringify(label));
        expect(new Set(names).size).toBe(names.length);
      }),
    );
  });
});
