import type { KilogramsPerCubicMetre, Metres, Ratio } from '../units.ts';

/** Density of one piece with its place. */
export interface PlacedDensity {
  readonly id: string;
  readonly top: Metres;
  readonly bottom: Metres;
  readonly density: KilogramsPerCubicMetre;
  /** Its own error. */
  readonly randomSd: KilogramsPerCubicMetre;
  /** Error in common with its cutter set, as a share of the density. */
  readonly sharedShare: Ratio;
  readonly cutterSet: string;
}

/** What the profile of all other pieces says of one. */
export interface ByOthers {
  readonly expected: KilogramsPerCubicMetre;
  /** Standard deviation of what it would then measure. */
  readonly sd: KilogramsPerCubicMetre;
  /** Measured less expected, in standard deviations. */
  readonly standardised: number;
}
