import { mustLie } from '../quantity-error.ts';
import type { Kelvin, Pascals } from '../units.ts';

/** Coefficients of y^j z^k, j down, k across; J/kg. */
const coefficients = [
  [
    101.342743139674, 100015.695367145, -2544.5765420363, 284.517778446287, -33.3146754253611,
    4.20263108803084, -0.546428511471039,
  ],
  [
    5.90578347909402, -270.983805184062, 776.153611613101, -196.51255088122, 28.9796526294175,
    -2.13290083518327,
  ],
  [
    -12357.785933039, 1455.0364540468, -756.558385769359, 273.479662323528, -55.5604063817218,
    4.34420671917197,
  ],
  [
    736.741204151612, -672.50778314507, 499.360390819152, -239.545330654412, 48.8012518593872,
    -1.66307106208905,
  ],
  [-148.185936433658, 397.968445406972, -301.815380621876, 152.196371733841, -26.3748377232802],
  [58.0259125842571, -194.618310617595, 120.520654902025, -55.2723052340152, 6.48190668077221],
  [-18.9843846514172, 63.5113936641785, -22.2897317140459, 8.17060541818112],
  [3.05081646487967, -9.63108119393062],
] as const;

/** Specific Gibbs energy of liquid water, J/kg, and its slope by temperature, J/kg/K. */
interface WaterGibbs {
  readonly g: number;
  readonly gT: number;
}

/**
 * Gibbs function of liquid water, needed here only for where it meets that of ice: melting point and latent heat.
 *
 * g = sum_jk g_jk y^j z^k, y = (T - 273.15 K)/40 K, z = (p - 101325 Pa)/100 MPa.
 *
 * Source: IAPWS SR7-09, eq. (1) and Table 1 (R. Feistel 2003, Prog. Oceanogr. 58, 43-114): pure water of the
 * international equation of state of seawater TEOS-10. Its reference state is that of IAPWS-95.
 *
 * @param temperature 260 to 313.15 K (below freezing by extrapolation, as TEOS-10 does)
 * @param pressure 0 to 100 MPa, absolute
 * @throws QuantityError outside
 */
export const waterGibbs = (temperature: Kelvin, pressure: Pascals): WaterGibbs => {
  mustLie('liquid water, IAPWS SR7-09', 'temperature', temperature, 260, 313.15, 'K');
  mustLie('liquid water, IAPWS SR7-09', 'pressure', pressure, 0, 100e6, 'Pa');
  const y = (temperature - 273.15) / 40;
  const z = (pressure - 101_325) / 100e6;
  let g = 0;
  let slope = 0;
  for (let j = coefficients.length - 1; j >= 0; j--) {
    const row = coefficients[j];
    let value = 0;
    for (let k = row.length - 1; k >= 0; k--) value = value * z + row[k];
    slope = slope * y + g;
    g = g * y + value;
  }
  return { g, gT: slope / 40 };
};
