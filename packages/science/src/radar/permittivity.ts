import { radarConstants } from '../constants/radar.ts';
import { universal } from '../constants/universal.ts';
import { mustLie } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, MetresPerSecond, Ratio } from '../units.ts';

/**
 * Refractive index of dry snow, firn and ice for radio waves: 1 + 0.845 rho, rho in g/cm3.
 *
 * Source: A. Kovacs, A. J. Gow, R. M. Morey 1995, Cold Reg. Sci. Technol. 23, 245-256,
 * doi:10.1016/0165-232X(94)00016-Q. A review finds some 1 % of scatter between published speeds in ice (Fujita et al.
 * 2000); the result for 917 kg/m3, 168.9 m/us, lies 4 standard deviations above what Robin 1975 measured.
 *
 * Validity: dry, without salt, megahertz to some gigahertz. Liquid water slows the wave several times as much.
 *
 * @param density 0 to 940 kg/m3
 * @throws QuantityError outside
 */
export const refractiveIndex = (density: KilogramsPerCubicMetre): Ratio => {
  mustLie('Kovacs, Gow & Morey 1995', 'density', density, 0, 940, 'kg/m3');
  return 1 + radarConstants.kovacsSlope.value * density;
};

/** Relative permittivity by the same: the index squared. @throws QuantityError as it */
export const permittivity = (density: KilogramsPerCubicMetre): Ratio => refractiveIndex(density) ** 2;

/** Speed of radio waves by the same: that in vacuum over the index. @throws QuantityError as it */
export const speedInFirn = (density: KilogramsPerCubicMetre): MetresPerSecond =>
  universal.lightSpeed.value / refractiveIndex(density);

/**
 * Speed where the permittivity is known: c over its root.
 *
 * @param relative 1 to 100
 * @throws QuantityError outside
 */
export const speedByPermittivity = (relative: Ratio): MetresPerSecond => {
  mustLie('speed of radio waves', 'relative permittivity', relative, 1, 100, '');
  return universal.lightSpeed.value / Math.sqrt(relative);
};
