import { radarConstants } from '../constants/radar.ts';
import type { MetresPerSecond } from '../units.ts';
import { speedInFirn } from './permittivity.ts';

/** Published speeds of radio waves in ice without air, by name; the first is the default. */
export const iceSpeedVariants = ['Robin 1975', 'Kovacs, Gow & Morey 1995', '168 m/us'] as const;
export type IceSpeedVariant = (typeof iceSpeedVariants)[number];

/** A speed as published. */
export interface IceSpeed {
  readonly value: MetresPerSecond;
  /** Of the measurement itself; null where none was published. */
  readonly sd: MetresPerSecond | null;
}

/**
 * Speed of radio waves in pure ice.
 *
 * - `Robin 1975`: 167.7 +- 0.3 m/us, measured at -20 degrees C in a bore hole, J. Glaciol. 15,
 *   doi:10.1017/S0022143000034341.
 * - `Kovacs, Gow & Morey 1995`: their index for 917 kg/m3, 168.9 m/us.
 * - `168 m/us`: what reductions commonly take (common practice, no source).
 *
 * Whatever the name, other ice at another temperature has another speed: see `speedUncertainty`.
 */
export const iceSpeed = (variant: IceSpeedVariant): IceSpeed => {
  const { robinSpeed, usualSpeed } = radarConstants;
  if (variant === 'Robin 1975') return { value: robinSpeed.value * 1e6, sd: robinSpeed.sd * 1e6 };
  return { value: variant === '168 m/us' ? usualSpeed.value * 1e6 : speedInFirn(917), sd: null };
};

/** Standard uncertainty of a speed at a place of one's own: that of the measurement and the 1 % of Fujita et al. 2000. */
export const speedUncertainty = ({ value, sd }: IceSpeed): MetresPerSecond =>
  Math.hypot(sd ?? 0, radarConstants.speedScatter.value * value);
