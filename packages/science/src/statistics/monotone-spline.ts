import { hermite, type KnotCurve, mustBeKnots } from './hermite.ts';

/** Slopes at the knots by Steffen 1990, eq. (11); at the ends by a parabola, eqs. (26) and (27), limited as in (28). */
const steffenSlopes = (h: readonly number[], rise: readonly number[]): number[] => {
  const n = h.length;
  const end = (p: number, s: number): number => (p * s <= 0 ? 0 : Math.abs(p) > 2 * Math.abs(s) ? 2 * s : p);
  const slopes = [
    n === 1 ? rise[0] : end(rise[0] * (1 + h[0] / (h[0] + h[1])) - (rise[1] * h[0]) / (h[0] + h[1]), rise[0]),
  ];
  for (let i = 1; i < n; i++) {
    const p = (rise[i - 1] * h[i] + rise[i] * h[i - 1]) / (h[i - 1] + h[i]);
    const least = Math.min(Math.abs(rise[i - 1]), Math.abs(rise[i]), 0.5 * Math.abs(p));
    slopes.push((Math.sign(rise[i - 1]) + Math.sign(rise[i])) * least);
  }
  const [a, b] = [h[n - 1], h[n - 2]];
  slopes.push(
    n === 1 ? rise[0] : end(rise[n - 1] * (1 + a / (a + b)) - (rise[n - 2] * a) / (a + b), rise[n - 1]),
  );
  return slopes;
};

/** Slopes of the parabola through three knots, then drawn into the circle of radius 3 (Fritsch & Carlson 1980, step 2 B). */
const fritschCarlsonSlopes = (h: readonly number[], rise: readonly number[]): number[] => {
  const n = h.length;
  const parabola = (i: number) => (h[i] * rise[i - 1] + h[i - 1] * rise[i]) / (h[i - 1] + h[i]);
  const slopes = Array.from({ length: n + 1 }, (_, i) => {
    if (n === 1) return rise[0];
    if (i === 0) return 2 * rise[0] - parabola(1);
    return i === n ? 2 * rise[n - 1] - parabola(n - 1) : parabola(i);
  });
  for (let i = 0; i < n; i++) {
    if (rise[i] === 0) {
      slopes[i] = 0;
      slopes[i + 1] = 0;
      continue;
    }
    // a slope against the rise would leave it at once
    if (slopes[i] / rise[i] < 0) slopes[i] = 0;
    if (slopes[i + 1] / rise[i] < 0) slopes[i + 1] = 0;
    const radius = Math.hypot(slopes[i], slopes[i + 1]) / Math.abs(rise[i]);
    if (radius <= 3) continue;
    slopes[i] *= 3 / radius;
    slopes[i + 1] *= 3 / radius;
  }
  return slopes;
};

/** Whose slopes: both go up where the knots go up, and never beyond them. */
export type MonotoneVariant = 'Steffen 1990' | 'Fritsch & Carlson 1980';

/**
 * Smooth curve through all knots that turns only at knots: no bulge between two of them, as a depth scale or an age over depth
 * needs.
 *
 * Steffen's slopes depend on the neighbours of a knot only, so that a new knot changes two intervals to each side at most;
 * Fritsch & Carlson's are a little fuller. Source: M. Steffen 1990, "A simple method for monotonic interpolation in one
 * dimension", Astron. Astrophys. 239, 443-450; F. N. Fritsch & R. E. Carlson 1980, "Monotone piecewise cubic
 * interpolation", SIAM J. Numer. Anal. 17, 238-246, doi:10.1137/0717021. Both from memory.
 *
 * @param x rising, 2 or more
 * @throws QuantityError
 */
export const monotoneSpline = (
  x: readonly number[],
  y: readonly number[],
  variant: MonotoneVariant = 'Steffen 1990',
): KnotCurve => {
  mustBeKnots(variant, x, y, 2);
  const h = x.slice(1).map((value, i) => value - x[i]);
  const rise = h.map((width, i) => (y[i + 1] - y[i]) / width);
  const slopes = variant === 'Steffen 1990' ? steffenSlopes(h, rise) : fritschCarlsonSlopes(h, rise);
  return hermite(variant, x, y, slopes);
};
