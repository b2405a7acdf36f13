import { QuantityError } from '../quantity-error.ts';
import { phOfHydrogen } from './acidity.ts';
import { type Ion, ionProperties } from './ions.ts';
import { type Measured, mustBeMeasured, rootOf } from './measured.ts';

/** One ion of a sample, ug/kg; with `below` its value is a limit that it lay under. */
export interface IonReading extends Measured {
  readonly ion: Ion;
  readonly below?: boolean;
}

/** What two ions' errors share, (ug/kg)^2: a dilution, a volume. */
export interface IonCovariance {
  readonly ions: readonly [Ion, Ion];
  readonly covariance: number;
}

/** Sums of charge, ueq/kg, and both conventions of the imbalance; nondetects count as nothing, see `hydrogenRange`. */
export interface IonBalance {
  readonly cations: Measured;
  readonly anions: Measured;
  /** Anions less cations: the acid that was not measured, or what the analysis lacks. */
  readonly hydrogen: Measured;
  /** Of the implied hydrogen ion; null where bases are left over or all is closed. */
  readonly ph: Measured | null;
  /** 100 (C - A)/(C + A), percent; null where nothing was found. */
  readonly toSum: Measured | null;
  /** 100 (C - A)/[(C + A)/2], percent: twice the other. */
  readonly toMean: Measured | null;
  /** Least and most hydrogen ion with every nondetect anywhere from zero to its limit, errors aside. */
  readonly hydrogenRange: readonly [number, number];
}

/** pH 14, in ueq/kg: what is less is rounding. */
const LEAST_HYDROGEN = 1e-8;

/**
 * Ion balance of a sample, with the hydrogen ion that closes it, H = A - C.
 *
 * Source: electroneutrality. Imbalance in percent of the sum (as rain-water networks print it) or of the mean; errors by
 * JCGM 100:2008, eq. (13). Carbonate and organic acids that were not measured are in the implied hydrogen ion.
 *
 * @param covariances of the readings; pairs left out share nothing
 * @throws QuantityError for an ion given twice, a limit that is not above zero, a number that is not finite
 */
export const ionBalance = (
  readings: readonly IonReading[],
  covariances: readonly IonCovariance[] = [],
): IonBalance => {
  const where = 'ion balance';
  const seen = new Map<Ion, { readonly slope: number; readonly sd: number }>();
  let [cations, anions, least, most] = [0, 0, 0, 0];
  for (const reading of readings) {
    const { ion, value, sd, below } = reading;
    mustBeMeasured(where, ion, reading, 'ug/kg', below ? Number.MIN_VALUE : -Number.MAX_VALUE);
    if (seen.has(ion)) throw new QuantityError(where, `${ion} is given twice`, 'each ion once');
    const { charge, perEquivalent } = ionProperties(ion);
    const slope = Math.sign(charge) / perEquivalent;
    seen.set(ion, { slope, sd: below ? 0 : sd });
    const found = Math.abs(slope) * value;
    if (below && charge > 0) least -= found;
    else if (below) most += found;
    else if (charge > 0) cations += found;
    else anions += found;
  }
  /** Variance of sum(weight_i x_i), weights by the sign of the ion's charge. */
  const variance = (ofCations: number, ofAnions: number): number => {
    const weight = (ion: Ion): number => {
      const slope = seen.get(ion)?.slope ?? 0;
      return slope > 0 ? ofCations * slope : -ofAnions * slope;
    };
    let sum = 0;
    for (const [ion, { sd }] of seen) sum += (weight(ion) * sd) ** 2;
    for (const { ions, covariance } of covariances) sum += 2 * weight(ions[0]) * weight(ions[1]) * covariance;
    return sum;
  };
  checkCovariances(where, covariances, (ion) => seen.get(ion)?.sd ?? 0);
  const hydrogen = { value: anions - cations, sd: rootOf(variance(-1, 1)) };
  const whole = cations + anions;
  const slopes = [200 * anions, -200 * cations].map((part) => part / whole ** 2) as [number, number];
  const toSum =
    whole > 0 ? { value: (100 * (cations - anions)) / whole, sd: rootOf(variance(...slopes)) } : null;
  return {
    cations: { value: cations, sd: rootOf(variance(1, 0)) },
    anions: { value: anions, sd: rootOf(variance(0, 1)) },
    hydrogen,
    ph:
      hydrogen.value >= LEAST_HYDROGEN
        ? { value: phOfHydrogen(hydrogen.value), sd: hydrogen.sd / (hydrogen.value * Math.LN10) }
        : null,
    toSum,
    toMean: toSum === null ? null : { value: 2 * toSum.value, sd: 2 * toSum.sd },
    hydrogenRange: [hydrogen.value + least, hydrogen.value + most],
  };
};

const checkCovariances = (
  where: string,
  covariances: readonly IonCovariance[],
  sdOf: (ion: Ion) => number,
): void => {
  for (const { ions, covariance } of covariances) {
    const most = sdOf(ions[0]) * sdOf(ions[1]);
    if (ions[0] === ions[1] || !(Math.abs(covariance) <= most * (1 + 1e-12)))
      throw new QuantityError(
        where,
        `covariance of ${ions[0]} and ${ions[1]} is ${covariance} (ug/kg)2`,
        `two different ions, at most ${most} (ug/kg)2 either way`,
      );
  }
};
