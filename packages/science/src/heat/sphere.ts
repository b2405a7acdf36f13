import type { Shape } from './shape.ts';

/** Below this the series; above, nothing cancels. */
const sinc = (x: number): number => (Math.abs(x) < 1e-4 ? 1 - (x * x) / 6 : Math.sin(x) / x);

/**
 * Sphere of radius L.
 *
 * Eigenvalues: 1 - zeta cot zeta = Bi. Coefficient 4 (sin zeta - zeta cos zeta)/(2 zeta - sin 2 zeta), profile
 * sin(zeta r)/(zeta r). With the surface held: zeta = n pi, same coefficient.
 *
 * Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition, 9.4 (from memory).
 */
export const sphere: Shape = {
  name: 'sphere',
  // divided by zeta, which would be a root of its own
  eigen: (zeta, biot) => (1 - biot) * sinc(zeta) - Math.cos(zeta),
  bracket: (n) => [(n - 1) * Math.PI, n * Math.PI],
  held: (n) => n * Math.PI,
  coefficient: (zeta) => (4 * (Math.sin(zeta) - zeta * Math.cos(zeta))) / (2 * zeta - Math.sin(2 * zeta)),
  profile: (zeta, place) => sinc(zeta * place),
  meanProfile: (zeta) => (3 * (Math.sin(zeta) - zeta * Math.cos(zeta))) / zeta ** 3,
};
