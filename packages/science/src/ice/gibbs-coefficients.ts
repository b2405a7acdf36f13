import type { Complex } from './complex.ts';

/**
 * Coefficients of the Gibbs function of ice Ih: IAPWS R10-06(2009), Table 2; R. Feistel and W. Wagner 2006. Three public
 * transcriptions agree, and Table 6 of the release comes out of them.
 */
/** J/kg, by powers of (p - 101325 Pa)/p_t. */
export const g0 = [
  -0.632020233335886e6, 0.655022213658955, -0.189369929326131e-7, 0.339746123271053e-14,
  -0.556464869058991e-21,
];
/** J/kg/K, so that entropy of liquid water is 0 at the triple point, as in IAPWS-95. */
export const s0 = -0.332733756492168e4;
export const t1: Complex = [0.368017112855051e-1, 0.510878114959572e-1];
/** J/kg/K */
export const r1: Complex = [0.447050716285388e2, 0.656876847463481e2];
export const t2: Complex = [0.337315741065416, 0.335449415919309];
/** J/kg/K, by powers of (p - 101325 Pa)/p_t. */
export const r2: readonly Complex[] = [
  [-0.72597457432922e2, -0.78100842711287e2],
  [-0.557107698030123e-4, 0.464578634580806e-4],
  [0.234801409215913e-10, -0.285651142904972e-10],
];
