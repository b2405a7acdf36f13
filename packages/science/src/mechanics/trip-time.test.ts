import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holeTime, runTime } from './trip-time.ts';

const pace = (lowering: number, hoisting: number, perMinute: number, minutes: number) => ({
  lowering,
  hoisting,
  penetration: perMinute / 60,
  handling: minutes * 60,
});

describe('time of a hole', () => {
  it('is 22.01736 h for 100 runs to 100 m, 48.31242 h for 167 runs to 150 m (recomputed in Python)', () => {
    const first = holeTime(0, 100, 1.0, pace(1.0, 0.8, 0.3, 8));
    expect([first.runs, (first.time / 3600).toFixed(5)]).toEqual([100, '22.01736']);
    const second = holeTime(0, 150, 0.9, pace(1.0, 0.5, 0.25, 10));
    expect([second.runs, (second.time / 3600).toFixed(5)]).toEqual([167, '48.31242']);
  });

  it('is the sum of its runs, one by one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 80, noNaN: true }),
        fc.double({ min: 0.1, max: 90, noNaN: true }),
        fc.double({ min: 0.2, max: 2, noNaN: true }),
        (from, way, length) => {
          const crew = pace(0.9, 0.6, 0.22, 11);
          let [at, time, runs] = [from, 0, 0];
          while (from + way - at > 1e-9 * length) {
            const next = Math.min(length, from + way - at);
            time += runTime(at, next, crew);
            at += next;
            runs++;
          }
          const found = holeTime(from, from + way, length, crew);
          expect(found.runs).toBe(runs);
          expect(Math.abs(found.time / time - 1)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it('has no run too many where the quotient is rounded up: 0.9 m by 0.3 m are three', () => {
    expect(holeTime(0, 0.9, 0.3, pace(1, 0.7, 0.3, 5)).runs).toBe(3);
    expect(holeTime(40, 40, 0.8, pace(1, 0.7, 0.3, 5))).toEqual({ runs: 0, time: 0 });
  });

  it('refuses to drill upwards, and a winch that stands', () => {
    expect(() => holeTime(60, 50, 1, pace(1, 0.7, 0.3, 5))).toThrow(/depth to reach is 50 m; allowed: 60 m/);
    expect(() => runTime(10, 1, pace(0, 0.7, 0.3, 5))).toThrow(/speed of lowering is 0 m\/s/);
    expect(() => holeTime(0, Number.NaN, 1, pace(1, 0.7, 0.3, 5))).toThrow(/depth to reach is NaN m/);
  });
});
