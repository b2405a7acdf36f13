import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { besselJ0, besselJ1 } from './bessel.ts';
import { cylinder } from './cylinder.ts';
import { surfaceHeld, surfaceInAir } from './semi-infinite.ts';
import { slab } from './slab.ts';
import { sphere } from './sphere.ts';
import { transient } from './transient.ts';
import { conduct } from './volumes/conduct.ts';
import { layeredGrid } from './volumes/grid.ts';
import { plainMedium } from './volumes/medium.ts';

/** Written by recompute.py beside this file: mpmath, 40 digits, by Laplace transforms instead of series and volumes. */
interface Recomputed {
  readonly bessel: readonly (readonly [x: number, j0: number, j1: number])[];
  readonly surface: readonly (readonly [
    x: number,
    t: number,
    a: number,
    h: number,
    k: number,
    held: number,
    air: number,
  ])[];
  readonly body: readonly (readonly [
    shape: 'slab' | 'cylinder' | 'sphere',
    biot: number,
    fourier: number,
    place: number,
    left: number,
  ])[];
  readonly layers: readonly (readonly [time: number, radius: number, left: number])[];
}
const recomputed: Recomputed = JSON.parse(readFileSync(new URL('recomputed.json', import.meta.url), 'utf8'));
const shapes = { slab, cylinder, sphere };

describe('recomputed with 40 digits by other ways', () => {
  it.each(recomputed.bessel)('J0 and J1 of %d', (x, j0, j1) => {
    expect(Math.abs(besselJ0(x) - j0)).toBeLessThan(2e-15 * (1 + x / 100));
    expect(Math.abs(besselJ1(x) - j1)).toBeLessThan(2e-15 * (1 + x / 100));
  });

  it.each(recomputed.surface)('a thick body at %d m after %d s', (x, t, a, h, k, held, air) => {
    expect(Math.abs(surfaceHeld(x, t, a) - held)).toBeLessThan(1e-14);
    expect(Math.abs(surfaceInAir(x, t, a, h, k) - air)).toBeLessThan(1e-14);
  });

  it.each(recomputed.body)('%s, Bi %d, Fo %d, at %d', (shape, biot, fourier, place, left) => {
    expect(Math.abs(transient(shapes[shape], biot, fourier).at(place) - left)).toBeLessThan(1e-12);
  });

  it('three layers of a cylinder with a gap and an air film, by finite volumes to 1e-4', () => {
    const layer = (thickness: number, k: number, alpha: number, cells: number, contact = 0) => ({
      thickness,
      medium: plainMedium(k, 500, k / (alpha * 500)),
      cells,
      contact,
    });
    const grid = layeredGrid('cylinder', [
      layer(0.05, 2.3, 1.3e-6, 50, 0.02),
      layer(0.04, 0.31, 0.45e-6, 40),
      layer(0.05, 0.037, 0.85e-6, 50),
    ]);
    const outside = { temperature: () => 280, film: 8 };
    const run = { grid, outside, start: 250, step: 60, until: 43_200 };
    const found: number[] = [];
    conduct(run, ({ time, temperatures }) => {
      for (const [at, radius] of recomputed.layers)
        if (at === time) {
          // between the middles of two volumes
          const i = grid.places.findIndex((place) => place > radius);
          const share = (radius - grid.places[i - 1]) / (grid.places[i] - grid.places[i - 1]);
          const there = temperatures[i - 1] + share * (temperatures[i] - temperatures[i - 1]);
          found.push((280 - there) / 30);
        }
      return false;
    });
    expect(found).toHaveLength(recomputed.layers.length);
    for (const [i, [, , left]] of recomputed.layers.entries())
      expect(Math.abs(found[i] - left)).toBeLessThan(1e-4);
  });
});
