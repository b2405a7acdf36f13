import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cylinder } from './cylinder.ts';
import { slab } from './slab.ts';
import { sphere } from './sphere.ts';
import { heislerTerm, transient } from './transient.ts';

describe('first term of the series (Heisler)', () => {
  // recomputed with SciPy from the transcendental equations; the same numbers stand in textbooks to 4 digits
  it.each([
    [0.01, 0.099834, 1.001661, 0.141245, 1.002496, 0.173032, 1.002998],
    [0.1, 0.311053, 1.016094, 0.441682, 1.024579, 0.542281, 1.029798],
    [0.5, 0.653271, 1.070128, 0.940771, 1.114255, 1.165561, 1.144106],
    [1, 0.860334, 1.119132, 1.255784, 1.207092, 1.570796, 1.27324],
    [2, 1.076874, 1.178456, 1.599449, 1.338377, 2.028758, 1.479319],
    [5, 1.313838, 1.240249, 1.989815, 1.502869, 2.570432, 1.787001],
    [10, 1.42887, 1.261963, 2.179497, 1.567692, 2.8363, 1.924909],
    [50, 1.540006, 1.272652, 2.357242, 1.600221, 3.078842, 1.996221],
    [100, 1.555245, 1.273088, 2.380902, 1.601524, 3.110187, 1.999033],
  ])('Bi %d: eigenvalue and coefficient of slab, cylinder, sphere', (biot, ...expected) => {
    const found = [slab, cylinder, sphere].flatMap((shape) => {
      const { zeta, coefficient } = heislerTerm(shape, biot);
      return [zeta, coefficient];
    });
    for (const [i, value] of expected.entries()) expect(Math.abs(found[i] - value)).toBeLessThan(1e-6);
  });

  it('is off by less than 2 % from Fo 0.2 on', () => {
    for (const shape of [slab, cylinder, sphere])
      for (const biot of [0.05, 0.7, 3, 40, 1000]) {
        const { zeta, coefficient } = heislerTerm(shape, biot);
        const { centre } = transient(shape, biot, 0.2);
        expect(Math.abs((coefficient * Math.exp(-zeta * zeta * 0.2)) / centre - 1)).toBeLessThan(0.02);
      }
  });
});

describe('full series', () => {
  // recomputed with SciPy; the cylinder also by finite differences
  it.each([
    [slab, 1, 0.05, 0.999751, 0.7903768],
    [cylinder, 1, 0.05, 0.9988978, 0.7696407],
    [slab, 1, 0.2, 0.9506418, 0.6433908],
    [cylinder, 1, 0.2, 0.8701742, 0.5702277],
    [slab, 1, 1, 0.5338594, 0.3481769],
    [cylinder, 1, 1, 0.2493797, 0.1603384],
    [slab, 10, 0.2, 0.8292547, 0.1224822],
    [cylinder, 10, 0.2, 0.6002323, 0.0748439],
    [slab, 0.2, 2, 0.7088666, 0.6434934],
    [cylinder, 0.2, 2, 0.4896121, 0.4441153],
  ] as const)('$name, Bi %d, Fo %d: middle %d, surface %d', (shape, biot, fourier, centre, surface) => {
    const found = transient(shape, biot, fourier);
    expect(Math.abs(found.centre - centre)).toBeLessThan(1e-6);
    expect(Math.abs(found.surface - surface)).toBeLessThan(1e-6);
  });

  it.each([
    [0.05, 0.9968692, 0.9870992],
    [0.1, 0.9493054, 0.8483551],
    [0.2, 0.7723116, 0.5014869],
    [0.5, 0.3707774, 0.0888897],
  ])('surface held, Fo %d: middle of slab and cylinder', (fourier, ofSlab, ofCylinder) => {
    expect(Math.abs(transient(slab, null, fourier).centre - ofSlab)).toBeLessThan(1e-6);
    expect(Math.abs(transient(cylinder, null, fourier).centre - ofCylinder)).toBeLessThan(1e-6);
    expect(Math.abs(transient(slab, null, fourier).surface)).toBeLessThan(1e-12);
  });

  it('a sphere with Bi 1 has its eigenvalues at (n - 1/2) pi: its series written out by hand', () => {
    let [sum, sign] = [0, 1];
    for (let n = 1; n <= 30; n++) {
      const zeta = (n - 0.5) * Math.PI;
      sum += ((4 * sign) / (2 * zeta)) * Math.exp(-zeta * zeta * 0.07);
      sign = -sign;
    }
    expect(transient(sphere, 1, 0.07).centre).toBeCloseTo(sum, 12);
  });

  it('a large Biot number comes to a held surface, a small one to a lumped body', () => {
    for (const [shape, ratio] of [
      [slab, 1],
      [cylinder, 2],
      [sphere, 3],
    ] as const) {
      expect(transient(shape, 1e6, 0.3).centre).toBeCloseTo(transient(shape, null, 0.3).centre, 5);
      // area over volume is 1, 2 and 3 over L
      expect(transient(shape, 1e-4, 900).mean).toBeCloseTo(Math.exp(-ratio * 1e-4 * 900), 5);
    }
  });

  it('starts at 1, falls with time, is warmest at the surface, and loses what the surface passes', () => {
    const cases = fc.record({
      shape: fc.constantFrom(slab, cylinder, sphere),
      biot: fc.double({ min: 0.01, max: 100, noNaN: true }),
      fourier: fc.double({ min: 0.01, max: 3, noNaN: true }),
    });
    fc.assert(
      fc.property(cases, ({ shape, biot, fourier }) => {
        expect(transient(shape, biot, 0)).toMatchObject({ centre: 1, surface: 1, mean: 1 });
        const now = transient(shape, biot, fourier);
        const later = transient(shape, biot, fourier * 1.001);
        expect(now.centre).toBeGreaterThanOrEqual(now.mean);
        expect(now.mean).toBeGreaterThanOrEqual(now.surface);
        expect(later.mean).toBeLessThan(now.mean);
        // d mean/d Fo = -(area L/volume) Bi theta_surface
        const sides = { slab: 1, cylinder: 2, sphere: 3 }[shape.name];
        const rate = (later.mean - now.mean) / (0.001 * fourier);
        const flow = (-sides * biot * (now.surface + later.surface)) / 2;
        expect(Math.abs(rate / flow - 1)).toBeLessThan(1e-4);
      }),
      { numRuns: 60 },
    );
  });

  it('says how many terms it took: 1 late, hundreds early', () => {
    expect(transient(slab, 2, 30).terms).toBe(1);
    expect(transient(cylinder, 2, 3e-4).terms).toBeGreaterThan(100);
    expect(transient(sphere, 2, 3e-5).terms).toBeLessThan(400);
  });

  it('refuses a Biot number of 0, a Fourier number that only the skin would feel, and places outside', () => {
    expect(() => transient(slab, 0, 1)).toThrow(/Biot number is 0; allowed: 0\.0001 to 1000000/);
    expect(() => transient(slab, 1, 1e-6)).toThrow(/Fourier number is 0\.000001/);
    expect(() => transient(slab, Number.NaN, 1)).toThrow(/Biot number is NaN/);
    expect(() => transient(slab, 1, 1).at(1.2)).toThrow(/place is 1\.2/);
  });
});

describe('a core in the open', () => {
  // bare 100 mm core, -25 degrees C into air of -5, h 8, k 2.32, 917 kg/m3, 1950 J/kg/K; recomputed with SciPy
  it.each([
    [10, 0.311383, -23.7893, -22.2831],
    [30, 0.93415, -20.3037, -19.0655],
    [60, 1.8683, -16.2398, -15.3305],
    [120, 3.736599, -11.063, -10.5725],
  ])('after %d minutes', (minutes, fo, centre, surface) => {
    const fourier = ((2.32 / (917 * 1950)) * 60 * minutes) / 0.05 ** 2;
    expect(Math.abs(fourier - fo)).toBeLessThan(1e-6);
    const found = transient(cylinder, (8 * 0.05) / 2.32, fourier);
    expect(Math.abs(-5 - 20 * found.centre - centre)).toBeLessThan(1e-4);
    expect(Math.abs(-5 - 20 * found.surface - surface)).toBeLessThan(1e-4);
  });
});
