import { describe, expect, it } from 'vitest';
import { layeredGrid } from './grid.ts';
import { plainMedium } from './medium.ts';

const medium = plainMedium(0.5, 800, 1500);
const layers = [
  { thickness: 0.05, medium, cells: 5 },
  { thickness: 0.03, medium, cells: 7, contact: 0.4, area: 1.25 },
];
const sum = (of: Float64Array, from = 0) => of.slice(from).reduce((a, b) => a + b, 0);

describe('layers cut into volumes', () => {
  it('fill the body: a square metre, a metre, a sphere', () => {
    expect(sum(layeredGrid('slab', layers).volumes)).toBeCloseTo(0.05 + 1.25 * 0.03, 14);
    expect(sum(layeredGrid('cylinder', layers).volumes)).toBeCloseTo(
      Math.PI * (0.0025 + 1.25 * (0.0064 - 0.0025)),
      14,
    );
    expect(sum(layeredGrid('sphere', layers).volumes)).toBeCloseTo(
      (4 / 3) * Math.PI * (0.05 ** 3 + 1.25 * (0.08 ** 3 - 0.05 ** 3)),
      14,
    );
  });

  it('resist in sum as a wall, a pipe, a shell does (Carslaw & Jaeger 1.6, 7.2, 9.2; from memory)', () => {
    const shell = (shape: 'slab' | 'cylinder' | 'sphere') => {
      const { inward, outward } = layeredGrid(shape, layers);
      return sum(inward, 5) + sum(outward, 5);
    };
    expect(shell('slab')).toBeCloseTo(0.03 / 1.25, 14);
    expect(shell('cylinder')).toBeCloseTo(Math.log(0.08 / 0.05) / (2 * Math.PI * 1.25), 14);
    expect(shell('sphere')).toBeCloseTo((1 / 0.05 - 1 / 0.08) / (4 * Math.PI * 1.25), 14);
  });

  it('have their gap at the outer face, their surface outermost', () => {
    const { gaps, surface, ends, places } = layeredGrid('cylinder', layers);
    expect([...gaps.slice(0, 11)].every((gap) => gap === 0)).toBe(true);
    expect(surface).toBeCloseTo(1.25 * 2 * Math.PI * 0.08, 14);
    expect(gaps[11]).toBeCloseTo(0.4 / surface, 14);
    expect(ends).toEqual([4, 11]);
    expect(places[0]).toBeCloseTo(0.005, 14);
  });
});
