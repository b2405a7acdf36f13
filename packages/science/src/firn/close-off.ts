import { firnConstants } from '../constants/firn.ts';
import { mustLie } from '../quantity-error.ts';
import type { Kelvin, KilogramsPerCubicMetre, Ratio } from '../units.ts';

/**
 * Density at which air in firn is cut off, by name:
 * - `Martinerie 1994`: 1/(1/rho_ice + V), V = 6.95e-4 T - 0.043 cm3/g; P. Martinerie et al. 1994, J. Geophys. Res. 99
 *   (D5), 10565, doi:10.1029/93JD03300 (constants from memory, agreeing with a quotation).
 * - `Martinerie 1992`: the same with V = 7.4e-4 T - 0.057; Earth Planet. Sci. Lett. 112, 1 (from memory).
 * - `830`: 830 kg/m3 whatever the temperature (convention, give or take 10 to 20).
 */
export type CloseOffVariant = 'Martinerie 1994' | 'Martinerie 1992' | '830';

const pores = {
  'Martinerie 1994': [firnConstants.martinerie1994Slope.value, firnConstants.martinerie1994Offset.value],
  'Martinerie 1992': [firnConstants.martinerie1992Slope.value, firnConstants.martinerie1992Offset.value],
} as const;

/**
 * Close-off density.
 *
 * @param temperature 200 to 273.15 K
 * @param ice density of ice, kg/m3
 * @throws QuantityError outside
 */
export const closeOffDensity = (
  temperature: Kelvin,
  variant: CloseOffVariant = 'Martinerie 1994',
  ice: KilogramsPerCubicMetre = 917,
): KilogramsPerCubicMetre => {
  mustLie(`close-off, ${variant}`, 'temperature', temperature, 200, 273.15, 'K');
  if (variant === '830') return firnConstants.closeOffConvention.value;
  const [slope, less] = pores[variant];
  return 1000 / (1000 / ice + slope * temperature - less);
};

/**
 * Density at which air stops mixing with that above: close-off less 14 kg/m3.
 *
 * Source: T. Blunier and J. Schwander 2000, in *Physics of Ice Core Records* (from memory).
 */
export const lockInDensity = (closeOff: KilogramsPerCubicMetre): KilogramsPerCubicMetre =>
  closeOff - firnConstants.lockInBelowCloseOff.value;

/**
 * Share of the pores that are closed: 0.37 (P/P_co)^-7.6, at most 1, P = 1 - rho/rho_ice.
 *
 * Source: C. Goujon, J.-M. Barnola, C. Ritz 2003, J. Geophys. Res. 108 (D24), 4792 (from memory).
 *
 * @param density 0 to below that of ice, kg/m3
 * @throws QuantityError outside
 */
export const closedShareOfPores = (
  density: KilogramsPerCubicMetre,
  closeOff: KilogramsPerCubicMetre,
  ice: KilogramsPerCubicMetre = 917,
): Ratio => {
  mustLie('closed pores, Goujon 2003', 'density', density, 0, ice, 'kg/m3');
  const [porosity, atCloseOff] = [1 - density / ice, 1 - closeOff / ice];
  const { closedAtCloseOff, closedPower } = firnConstants;
  return porosity === 0
    ? 1
    : Math.min(1, closedAtCloseOff.value * (porosity / atCloseOff) ** closedPower.value);
};
