import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clipped } from './clip.ts';

const window = { left: 2, right: 10, top: 1, bottom: 7 };
type Point = readonly [number, number];
const long = (line: readonly Point[]): number =>
  line.slice(1).reduce((sum, [x, y], at) => sum + Math.hypot(x - line[at]![0], y - line[at]![1]), 0);

describe('clipped', () => {
  it('leaves a line inside as it is', () => {
    const line: Point[] = [
      [3, 2],
      [5, 4],
      [9, 3],
    ];
    expect(clipped(line, window)).toEqual([line]);
  });

  it('cuts where the line leaves, and begins again where it comes back', () => {
    const line: Point[] = [
      [4, 3],
      [4, 11],
      [8, 11],
      [8, 5],
    ];
    expect(clipped(line, window)).toEqual([
      [
        [4, 3],
        [4, 7],
      ],
      [
        [8, 7],
        [8, 5],
      ],
    ]);
  });

  it('ends a stretch at a point that is no number', () => {
    const line: Point[] = [
      [3, 2],
      [4, 3],
      [Number.NaN, 3],
      [6, 3],
      [7, 4],
    ];
    expect(clipped(line, window).map((one) => one.length)).toEqual([2, 2]);
  });

  it('of any line: what is left lies inside, and is as long as what was inside (counted in small steps)', () => {
    const point = fc.tuple(fc.integer({ min: -5, max: 15 }), fc.integer({ min: -6, max: 13 }));
    fc.assert(
      fc.property(fc.array(point, { minLength: 2, maxLength: 6 }), (line) => {
        const left = clipped(line, window);
        for (const [x, y] of left.flat()) {
          expect(x).toBeGreaterThanOrEqual(window.left - 1e-9);
          expect(x).toBeLessThanOrEqual(window.right + 1e-9);
          expect(y).toBeGreaterThanOrEqual(window.top - 1e-9);
          expect(y).toBeLessThanOrEqual(window.bottom + 1e-9);
        }
        const steps = 400;
        let inside = 0;
        for (const [at, to] of line.slice(1).entries()) {
          const from = line[at]!;
          for (let step = 0.5; step < steps; step += 1) {
            const [x, y] = [0, 1].map((i) => from[i]! + (step / steps) * (to[i]! - from[i]!)) as [
              number,
              number,
            ];
            if (x >= window.left && x <= window.right && y >= window.top && y <= window.bottom)
              inside += long([from, to]) / steps;
          }
        }
        const sum = left.reduce((all, one) => all + long(one), 0);
        expect(Math.abs(sum - inside)).toBeLessThan(0.2 * line.length);
      }),
      { numRuns: 60 },
    );
  });
});
