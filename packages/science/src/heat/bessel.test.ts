import { describe, expect, it } from 'vitest';
import { besselJ0, besselJ1 } from './bessel.ts';

describe('Bessel functions J0 and J1', () => {
  // mpmath 1.3.0 with 30 digits, mpmath.besselj(0, x) and (1, x)
  it.each([
    [0, 1, 0],
    [0.3, 0.977626246538296, 0.148318816273104],
    [1.5, 0.511827671735918, 0.5579365079100996],
    [5.25, -0.0930809896393179, -0.3450139785794377],
    [11.7, -0.0213312813884995, -0.2333002408314302],
    [25, 0.0962667832759581, -0.1253502495802899],
    [63.5, 0.0994151918911079, -0.0111263228494525],
    [160.25, -0.045798234094763, 0.0431605341254533],
    [700.5, -0.0196517885205408, 0.0228467453756427],
    [1999, 0.0176131598064801, 0.0028759404354997],
  ])('at %d are those of 30 digits', (x, j0, j1) => {
    expect(Math.abs(besselJ0(x) - j0)).toBeLessThan(1e-15 * (1 + x / 100));
    expect(Math.abs(besselJ1(x) - j1)).toBeLessThan(1e-15 * (1 + x / 100));
  });

  it('J0 is even, J1 odd, and J0 vanishes at 2.404825557695773', () => {
    expect(besselJ0(-3.7)).toBe(besselJ0(3.7));
    expect(besselJ1(-3.7)).toBe(-besselJ1(3.7));
    expect(Math.abs(besselJ0(2.404825557695773))).toBeLessThan(1e-15);
  });

  it('obey d/dx (x J1) = x J0 everywhere', () => {
    for (const x of [0.2, 2.9, 17.3, 88.1, 401]) {
      const h = 1e-4;
      const slope = ((x + h) * besselJ1(x + h) - (x - h) * besselJ1(x - h)) / (2 * h);
      expect(Math.abs(slope - x * besselJ0(x))).toBeLessThan(1e-7 * (1 + x));
    }
  });

  it('refuse what is no number or too large', () => {
    expect(() => besselJ0(Number.NaN)).toThrow(/argument is NaN/);
    expect(() => besselJ1(3000)).toThrow(/allowed: -2000 to 2000/);
  });
});
