import type { Kilograms, KilogramsPerCubicMetre, Metres, MetresWaterEquivalent, Ratio } from '../units.ts';

/** kg/m3; by convention, not that of real water at any temperature. */
export const waterDensity: KilogramsPerCubicMetre = 1000;

/** A cylinder of core, what is missing from it counted off, each with its standard deviation. */
export interface Cylinder {
  readonly mass: Kilograms;
  readonly massSd: Kilograms;
  /** As it lay in the hole. */
  readonly length: Metres;
  readonly lengthSd: Metres;
  readonly diameter: Metres;
  /** Its own error, and what it has in common with others. */
  readonly diameterSd: Metres;
  readonly sharedDiameterSd: Metres;
  /** Of `length`, sawn off before weighing. */
  readonly sawnOff: Metres;
  readonly sawnOffSd: Metres;
  /** Missing from what was weighed, m3. */
  readonly missing: number;
  readonly missingSd: number;
}

/** Value; standard deviation of its own; standard deviation in common with its cutter set. */
export interface Shared<Unit extends number> {
  readonly value: Unit;
  readonly randomSd: Unit;
  readonly sharedSd: Unit;
}

export interface CylinderResult {
  readonly density: Shared<KilogramsPerCubicMetre>;
  /** Of the whole length: mass over area, so that an error of the length all but cancels. */
  readonly waterEquivalent: Shared<MetresWaterEquivalent>;
  /**
   * Random errors as shares of the density: those that mass over area has as well, and those that come in with the
   * length alone.
   */
  readonly shares: { readonly area: Ratio; readonly length: Ratio };
}

/**
 * Density and water equivalent of a cylinder, errors by propagation (JCGM 100:2008, eq. 10; terms independent):
 * rho = m/V, V = pi d^2/4 (L - s) - W, w.e. = rho L/1000 (without saw cut and wedge: 4 m/(pi d^2)/1000).
 * u(rho)^2/rho^2 = (u_m/m)^2 + (2 c u_d/d)^2 + (c u_L/(L - s))^2 + (c u_s/(L - s))^2 + (u_W/V)^2, c = 1 + W/V.
 */
export const cylinderDensity = (piece: Cylinder): CylinderResult => {
  const { mass, length, diameter, sawnOff, missing } = piece;
  const weighed = length - sawnOff;
  const volume = (Math.PI / 4) * diameter * diameter * weighed - missing;
  const density = mass / volume;
  const c = 1 + missing / volume;
  const own = Math.hypot(
    piece.massSd / mass,
    (2 * c * piece.diameterSd) / diameter,
    (c * piece.sawnOffSd) / weighed,
    piece.missingSd / volume,
  );
  const byLength = (c * piece.lengthSd) / weighed;
  // d ln(w.e.)/dL: what of the length's error is left once the length cancels
  const left = Math.abs(1 / length - c / weighed) * piece.lengthSd;
  const common = (2 * c * piece.sharedDiameterSd) / diameter;
  const water = (density * length) / waterDensity;
  return {
    density: {
      value: density,
      randomSd: density * Math.hypot(own, byLength),
      sharedSd: density * common,
    },
    waterEquivalent: { value: water, randomSd: water * Math.hypot(own, left), sharedSd: water * common },
    shares: { area: own, length: byLength },
  };
};
