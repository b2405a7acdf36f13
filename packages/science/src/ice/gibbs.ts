import { iceConstants } from '../constants/ice.ts';
import { mustLie } from '../quantity-error.ts';
import type { Kelvin, Pascals } from '../units.ts';
import { add, type Complex, inverse, log, scaled, times } from './complex.ts';
import { g0, r1, r2, s0, t1, t2 } from './gibbs-coefficients.ts';

/** Specific Gibbs energy and its derivatives by temperature (T) and pressure (p). */
export interface Gibbs {
  /** J/kg */
  readonly g: number;
  /** J/kg/K */
  readonly gT: number;
  /** m3/kg */
  readonly gp: number;
  /** J/kg/K2 */
  readonly gTT: number;
  /** m3/kg/K */
  readonly gTp: number;
  /** m3/kg/Pa */
  readonly gpp: number;
}

const tripleT = iceConstants.tripleTemperature.value;
const tripleP = iceConstants.triplePressure.value;
const normalP = iceConstants.normalPressure.value;
/**
 * Gibbs function of ice Ih: the one equation from which density, heat capacity and expansion follow.
 *
 * g(T,p) = g0(p) - s0 Tt tau + Tt Re sum_k r_k [(t_k - tau) ln(t_k - tau) + (t_k + tau) ln(t_k + tau) - 2 t_k ln t_k
 * - tau^2/t_k], tau = T/Tt; g0 and r_2 are polynomials in (p - 101325 Pa)/pt.
 *
 * Source: IAPWS R10-06(2009), eqs. (1) to (3), Tables 1 and 2; R. Feistel and W. Wagner 2006, J. Phys. Chem. Ref. Data
 * 35, 1021-1047, doi:10.1063/1.2183324. The entropy is that of IAPWS-95 ("absolute" entropy is the release's other
 * choice; no property but s, u, f, g depends on it).
 *
 * @param temperature 0 K (not taken here: above 0) to the melting point; up to 273.16 K is accepted
 * @param pressure 0 to 210 MPa, absolute
 * @throws QuantityError outside
 */
export const iceGibbs = (temperature: Kelvin, pressure: Pascals): Gibbs => {
  mustLie('ice Ih, IAPWS R10-06', 'temperature', temperature, 1e-3, tripleT, 'K');
  mustLie('ice Ih, IAPWS R10-06', 'pressure', pressure, 0, 210e6, 'Pa');
  const tau = temperature / tripleT;
  const x = (pressure - normalP) / tripleP;
  const sum = (term: (k: number) => number, from: number) => {
    let value = 0;
    for (let k = from; k < g0.length; k++) value += term(k);
    return value;
  };
  const r2At = add(r2[0], scaled(r2[1], x), scaled(r2[2], x * x));
  const r2ByP = scaled(add(r2[1], scaled(r2[2], 2 * x)), 1 / tripleP);
  const r2ByPP = scaled(r2[2], 2 / tripleP ** 2);
  const [a, b] = [terms(t1, tau), terms(t2, tau)];
  return {
    g:
      sum((k) => g0[k] * x ** k, 0) -
      s0 * temperature +
      tripleT * add(times(r1, a.value), times(r2At, b.value))[0],
    gT: -s0 + add(times(r1, a.first), times(r2At, b.first))[0],
    gp: sum((k) => (g0[k] * k * x ** (k - 1)) / tripleP, 1) + tripleT * times(r2ByP, b.value)[0],
    gTT: add(times(r1, a.second), times(r2At, b.second))[0] / tripleT,
    gTp: times(r2ByP, b.first)[0],
    gpp:
      sum((k) => (g0[k] * k * (k - 1) * x ** (k - 2)) / tripleP ** 2, 2) +
      tripleT * times(r2ByPP, b.value)[0],
  };
};

/** The bracket of one term and its derivatives by tau. */
const terms = (t: Complex, tau: number) => {
  const minus = add(t, [-tau, 0]);
  const plus = add(t, [tau, 0]);
  const [logMinus, logPlus] = [log(minus), log(plus)];
  const over = inverse(t);
  return {
    value: add(
      times(minus, logMinus),
      times(plus, logPlus),
      scaled(times(t, log(t)), -2),
      scaled(over, -tau * tau),
    ),
    first: add(scaled(logMinus, -1), logPlus, scaled(over, -2 * tau)),
    second: add(inverse(minus), inverse(plus), scaled(over, -2)),
  };
};
