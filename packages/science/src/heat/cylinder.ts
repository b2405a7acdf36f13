import { besselJ0, besselJ1 } from './bessel.ts';
import { rootBetween } from './root.ts';
import type { Shape } from './shape.ts';

/** Zeros lie a little less than pi apart near these (McMahon's first term), each far within pi/4 of it. */
const zero = (f: (x: number) => number, near: number) =>
  rootBetween(f, near - Math.PI / 4, near + Math.PI / 4);
const zeroJ0 = (n: number): number => zero(besselJ0, (n - 0.25) * Math.PI);
const zeroJ1 = (n: number): number => (n === 0 ? 0 : zero(besselJ1, (n + 0.25) * Math.PI));

/**
 * Infinite cylinder of radius L: a long core.
 *
 * Eigenvalues: zeta J1(zeta) = Bi J0(zeta), one between each zero of J1 and the next one of J0. Coefficient (2/zeta)
 * J1/(J0^2 + J1^2), profile J0(zeta r). With the surface held: the zeros of J0, same coefficient.
 *
 * Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition, 7.7 (from memory).
 */
export const cylinder: Shape = {
  name: 'cylinder',
  eigen: (zeta, biot) => zeta * besselJ1(zeta) - biot * besselJ0(zeta),
  bracket: (n) => [zeroJ1(n - 1), zeroJ0(n)],
  held: zeroJ0,
  coefficient: (zeta) => {
    const [j0, j1] = [besselJ0(zeta), besselJ1(zeta)];
    return (2 * j1) / (zeta * (j0 * j0 + j1 * j1));
  },
  profile: (zeta, place) => besselJ0(zeta * place),
  meanProfile: (zeta) => (2 * besselJ1(zeta)) / zeta,
};
