import { QuantityError } from '../quantity-error.ts';
import { type Measured, mustBeCovariance, mustBeMeasured, rootOf } from './measured.ts';

/** Both parts of calcium and sodium; the covariance is that of `dustCalcium` and `seaSaltSodium`. */
export interface SaltAndDust {
  readonly dustCalcium: Measured;
  readonly seaSaltSodium: Measured;
  readonly covariance: number;
}

/**
 * Sea-salt sodium and dust (non-sea-salt) calcium of a sample in which both ions have both sources:
 * nssCa = R_t (Ca - R_m Na)/(R_t - R_m), ssNa = Na - nssCa/R_t, so that nssCa + R_m ssNa = Ca.
 *
 * Source: R. Röthlisberger et al. 2002, "Dust and sea salt variability in central East Antarctica over the last 45 kyrs",
 * Geophys. Res. Lett. 29 (20), 1963, doi:10.1029/2002GL015186 (from memory). R_m is calcium to sodium by mass in sea
 * salt, R_t in dust: 1.78 for mean crust (Bowen 1979; from memory). Dust that lost or gained sodium has another R_t:
 * give it, with its uncertainty. Errors by JCGM 100:2008, eq. (13), ratios included. Negative parts are kept.
 *
 * @param calcium and sodium by mass, in one unit
 * @param covariance of calcium and sodium, unit squared
 * @throws QuantityError unless R_t is above R_m; for what is not finite
 */
export const seaSaltAndDust = (
  calcium: Measured,
  sodium: Measured,
  marine: Measured,
  dust: Measured,
  covariance = 0,
): SaltAndDust => {
  const where = 'sea salt and dust';
  mustBeMeasured(where, 'calcium', calcium);
  mustBeMeasured(where, 'sodium', sodium);
  mustBeMeasured(where, 'R_m', marine, 'g/g', 0);
  mustBeMeasured(where, 'R_t', dust, 'g/g', 0);
  mustBeCovariance(where, covariance, calcium, sodium);
  const [ca, na, rm, rt] = [calcium.value, sodium.value, marine.value, dust.value];
  const apart = rt - rm;
  if (!(apart > 0)) throw new QuantityError(where, `R_t is ${rt} g/g`, `above R_m, ${rm} g/g`);
  const dustCalcium = (rt * (ca - rm * na)) / apart;
  const seaSaltSodium = na - dustCalcium / rt;
  // slopes on Ca, Na, R_m, R_t
  const ofCalcium = [
    rt / apart,
    (-rt * rm) / apart,
    (-rt * seaSaltSodium) / apart,
    (-rm * dustCalcium) / (rt * apart),
  ];
  const ofSodium = [-1 / apart, rt / apart, seaSaltSodium / apart, dustCalcium / (rt * apart)];
  const variances = [calcium.sd ** 2, sodium.sd ** 2, marine.sd ** 2, dust.sd ** 2];
  const shared = (a: readonly number[], b: readonly number[]): number =>
    variances.reduce((sum, variance, i) => sum + (a[i] ?? 0) * (b[i] ?? 0) * variance, 0) +
    ((a[0] ?? 0) * (b[1] ?? 0) + (a[1] ?? 0) * (b[0] ?? 0)) * covariance;
  return {
    dustCalcium: { value: dustCalcium, sd: rootOf(shared(ofCalcium, ofCalcium)) },
    seaSaltSodium: { value: seaSaltSodium, sd: rootOf(shared(ofSodium, ofSodium)) },
    covariance: shared(ofCalcium, ofSodium),
  };
};
