import type { Shape } from './shape.ts';

/**
 * Slab of half thickness L, cooled or warmed on both faces (or on one, the other insulated).
 *
 * Eigenvalues: zeta tan zeta = Bi. Coefficient 4 sin zeta/(2 zeta + sin 2 zeta), profile cos(zeta x), x = 0 in the
 * middle, 1 at the face. With the surface held: zeta = (n - 1/2) pi, same coefficient.
 *
 * Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition, 3.11 (from memory).
 */
export const slab: Shape = {
  name: 'slab',
  eigen: (zeta, biot) => zeta * Math.sin(zeta) - biot * Math.cos(zeta),
  bracket: (n) => [(n - 1) * Math.PI, (n - 0.5) * Math.PI],
  held: (n) => (n - 0.5) * Math.PI,
  coefficient: (zeta) => (4 * Math.sin(zeta)) / (2 * zeta + Math.sin(2 * zeta)),
  profile: (zeta, place) => Math.cos(zeta * place),
  meanProfile: (zeta) => Math.sin(zeta) / zeta,
};
