import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { wedgeVolume } from './wedge.ts';

const d = 0.1;
describe('volume of a missing wedge', () => {
  it('is Archimedes’ two thirds of r2 h for a hoof that reaches the axis', () => {
    expect(wedgeVolume({ kind: 'end', depth: d / 2, length: 0.06 }, d, 'x')).toBeCloseTo(
      (2 / 3) * 0.05 ** 2 * 0.06,
      12,
    );
  });

  it('is half the cylinder for a slanting break right across', () => {
    expect(wedgeVolume({ kind: 'end', depth: d, length: 0.03 }, d, 'x')).toBeCloseTo(
      (Math.PI / 2) * 0.05 ** 2 * 0.03,
      12,
    );
  });

  it('is half, and all, of the length for a strip of half and of all the diameter', () => {
    const circle = Math.PI * 0.05 ** 2;
    expect(wedgeVolume({ kind: 'side', depth: d / 2, length: 0.5 }, d, 'x')).toBeCloseTo(0.25 * circle, 12);
    expect(wedgeVolume({ kind: 'side', depth: d, length: 0.5 }, d, 'x')).toBeCloseTo(0.5 * circle, 12);
  });

  it('is the integral of circular segments, for any depth', () => {
    const segment = (s: number) => wedgeVolume({ kind: 'side', depth: s, length: 1 }, d, 'x');
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: d, noNaN: true }), (depth) => {
        // a hoof's section at height z is a segment of depth b (1 - z/h)
        const parts = 4000;
        let sum = 0;
        for (let k = 0; k < parts; k++) sum += segment(depth * (1 - (k + 0.5) / parts)) * (0.04 / parts);
        const volume = wedgeVolume({ kind: 'end', depth, length: 0.04 }, d, 'x');
        expect(Math.abs(volume / sum - 1)).toBeLessThan(1e-5);
      }),
      { numRuns: 30 },
    );
  });

  it('refuses a wedge deeper than the core is thick', () => {
    expect(() => wedgeVolume({ kind: 'end', depth: 0.11, length: 0.1 }, d, 'piece 3-1')).toThrow(
      /piece 3-1: depth of a missing wedge is 0\.11 m; allowed: 0 to 0\.1 m/,
    );
    expect(() => wedgeVolume({ kind: 'side', depth: 0.01, length: 0 }, d, 'piece 3-1')).toThrow(/above 0 m/);
  });
});
