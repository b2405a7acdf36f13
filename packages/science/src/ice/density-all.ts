import { iceConstants } from '../constants/ice.ts';
import { mustLie } from '../quantity-error.ts';
import type { Kelvin, Pascals } from '../units.ts';
import { g0, r2, t2 } from './gibbs-coefficients.ts';

const tripleT = iceConstants.tripleTemperature.value;
const tripleP = iceConstants.triplePressure.value;
const [t2Re, t2Im] = t2;
const log2Re = Math.log(Math.hypot(t2Re, t2Im));
const log2Im = Math.atan2(t2Im, t2Re);
/** 1/t_2 and t_2 ln t_2 */
const square = t2Re * t2Re + t2Im * t2Im;
const [overRe, overIm] = [t2Re / square, -t2Im / square];
const [ownRe, ownIm] = [t2Re * log2Re - t2Im * log2Im, t2Re * log2Im + t2Im * log2Re];

/**
 * Densities of ice Ih at many temperatures under one pressure: `iceDensity` without an allocation per element. Only the
 * second term of the Gibbs function depends on pressure, so that 1/rho = a(p) + Tt Re[r_2'(p) b(T)] with b its bracket.
 *
 * Source: IAPWS R10-06(2009), eq. (1) and its derivative by pressure, Table 4.
 *
 * @param temperatures above 0 to 273.16 K
 * @param out densities in kg/m3, as many as there are temperatures
 * @throws QuantityError for a temperature or pressure outside the release's range
 */
export const iceDensityAll = (
  temperatures: Float64Array,
  out: Float64Array,
  pressure: Pascals = iceConstants.normalPressure.value,
): void => {
  mustLie('ice Ih, IAPWS R10-06', 'pressure', pressure, 0, 210e6, 'Pa');
  const x = (pressure - iceConstants.normalPressure.value) / tripleP;
  let constant = 0;
  for (let k = 1; k < g0.length; k++) constant += (g0[k] * k * x ** (k - 1)) / tripleP;
  const slopeRe = ((r2[1][0] + 2 * r2[2][0] * x) * tripleT) / tripleP;
  const slopeIm = ((r2[1][1] + 2 * r2[2][1] * x) * tripleT) / tripleP;
  for (let i = 0; i < temperatures.length; i++) {
    const temperature: Kelvin = temperatures[i];
    mustLie('ice Ih, IAPWS R10-06', 'temperature', temperature, 1e-3, tripleT, 'K');
    const tau = temperature / tripleT;
    const low = t2Re - tau;
    const high = t2Re + tau;
    const lowLog = 0.5 * Math.log(low * low + t2Im * t2Im);
    const highLog = 0.5 * Math.log(high * high + t2Im * t2Im);
    const lowAngle = Math.atan2(t2Im, low);
    const highAngle = Math.atan2(t2Im, high);
    const re =
      low * lowLog - t2Im * lowAngle + high * highLog - t2Im * highAngle - 2 * ownRe - tau * tau * overRe;
    const im =
      low * lowAngle + t2Im * lowLog + high * highAngle + t2Im * highLog - 2 * ownIm - tau * tau * overIm;
    out[i] = 1 / (constant + slopeRe * re - slopeIm * im);
  }
};
