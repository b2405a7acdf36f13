import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ticksFor } from './ticks.ts';

const labels = (from: number, to: number, mmPerMetre: number): readonly string[] => {
  const { ticks, decimals } = ticksFor(from, to, mmPerMetre);
  return ticks.filter((tick) => tick.long).map((tick) => tick.depth.toFixed(decimals));
};

describe('ticksFor', () => {
  it('labels half metres at 45 mm per metre', () => {
    expect(labels(27, 28.2, 45)).toEqual(['27.0', '27.5', '28.0']);
  });

  it('labels centimetres close up and hundreds of metres from afar', () => {
    expect(labels(28.61, 28.66, 1000)).toEqual(['28.62', '28.64', '28.66']);
    expect(labels(0, 620, 0.1)).toEqual(['0', '200', '400', '600']);
  });

  it('at any depth and scale keeps labels readable, distinct, and ticks at their depths', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 4000, noNaN: true }),
        fc.double({ min: 1e-3, max: 4, noNaN: true }),
        fc.double({ min: 20, max: 300, noNaN: true }),
        (from, metres, height) => {
          const scale = height / metres;
          const { ticks, decimals } = ticksFor(from, from + metres, scale);
          const long = ticks.filter((tick) => tick.long);
          expect(new Set(long.map((tick) => tick.depth.toFixed(decimals))).size).toBe(long.length);
          for (const [at, tick] of ticks.entries()) {
            expect(tick.depth).toBeGreaterThanOrEqual(from - 1e-6);
            expect(tick.depth).toBeLessThanOrEqual(from + metres + 1e-6);
            const next = ticks[at + 1];
            if (next) expect((next.depth - tick.depth) * scale).toBeGreaterThan(1.99);
          }
          for (const [at, tick] of long.entries()) {
            expect(Math.abs(Number(tick.depth.toFixed(decimals)) - tick.depth)).toBeLessThan(1e-6);
            const next = long[at + 1];
            if (next) expect((next.depth - tick.depth) * scale).toBeGreaterThan(15.99);
          }
        },
      ),
      { seed: 20260614, numRuns: 300 },
    );
  });
});
