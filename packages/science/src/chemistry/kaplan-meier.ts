import { QuantityError } from '../quantity-error.ts';
import { type CensoredReading, mustBeCensored } from './censored.ts';

/** Estimated distribution at a detected value: shares of the population. */
interface CensoredStep {
  readonly value: number;
  /** F just below it. */
  readonly below: number;
  /** F at it: value included. */
  readonly upTo: number;
  /** Standard error of `below`, by Greenwood's formula. */
  readonly sd: number;
}

export interface KaplanMeier {
  /** From the largest value down. */
  readonly steps: readonly CensoredStep[];
  readonly mean: number;
  /** Standard error of the mean. */
  readonly meanSd: number;
  /** Standard deviation of the population: the standard error times the root of the count. */
  readonly sd: number;
  /** Null where more than half lies below the least detected value. */
  readonly median: number | null;
  /** Share below the least detected value, counted in the mean at the least limit: with zero the mean is `meanLeast`. */
  readonly rest: number;
  readonly meanLeast: number;
}

/**
 * Distribution, mean and median of values of which some are only known to lie below a limit, by the Kaplan-Meier
 * estimator turned round: from the largest value down, F falls at each detected one by the factor (r - d)/r, r being
 * the values and limits at or below it, d those detected there. Nothing is assumed about the distribution.
 *
 * Source: E. L. Kaplan, P. Meier 1958, J. Am. Stat. Assoc. 53, 457-481; for limits of detection D. R. Helsel 2005,
 * Nondetects and Data Analysis, chapter 6, Wiley (from memory). Errors: Greenwood 1926, and for the mean
 * m/(m - 1) sum A^2 d/(r (r - d)), A the area under F below the value, m values detected (Kaplan & Meier's own factor). Validity: limits that do not depend on the content; below the
 * least value nothing is known (`rest`).
 *
 * @throws QuantityError for values that are not above zero, and where fewer than 2 were detected
 */
export const kaplanMeier = (readings: readonly CensoredReading[]): KaplanMeier => {
  const where = 'Kaplan-Meier';
  mustBeCensored(where, readings, 1);
  const count = readings.filter(({ below }) => !below).length;
  if (count < 2) throw new QuantityError(where, 'one value was detected', '2 or more');
  // from the largest down; a limit counts as just below its own number, so it is still there when a value equals it
  const sorted = readings.toSorted((a, b) => b.value - a.value || Number(a.below) - Number(b.below));
  const events: { readonly value: number; readonly atRisk: number; readonly detected: number }[] = [];
  for (let i = 0; i < sorted.length; i += 1) {
    const { value, below } = sorted[i] as CensoredReading;
    if (below) continue;
    const atRisk = sorted.length - i;
    while (sorted[i + 1]?.value === value && sorted[i + 1]?.below === false) i += 1;
    events.push({ value, atRisk, detected: atRisk - (sorted.length - i - 1) });
  }
  const steps: CensoredStep[] = [];
  let [upTo, greenwood, mean] = [1, 0, 0];
  for (const { value, atRisk, detected } of events) {
    const left = atRisk - detected;
    const below = (upTo * left) / atRisk;
    if (left > 0) greenwood += detected / (atRisk * left);
    steps.push({ value, below, upTo, sd: left > 0 ? below * Math.sqrt(greenwood) : 0 });
    mean += value * (upTo - below);
    upTo = below;
  }
  const least = sorted.at(-1)?.value ?? 0;
  const sd = Math.sqrt((sorted.length * meanVariance(events, steps, least) * count) / (count - 1));
  return {
    steps,
    mean: mean + upTo * least,
    meanSd: sd / Math.sqrt(sorted.length),
    sd,
    median: steps.findLast((step) => step.upTo >= 0.5 && step.below < 0.5)?.value ?? null,
    rest: upTo,
    meanLeast: mean,
  };
};

/** Areas under F below each value, from the least reading up; without limits this is s^2/n. */
const meanVariance = (
  events: readonly { readonly atRisk: number; readonly detected: number }[],
  steps: readonly CensoredStep[],
  least: number,
): number => {
  let [area, under, variance] = [0, least, 0];
  for (let i = steps.length - 1; i >= 0; i -= 1) {
    const [step, event] = [steps[i], events[i]];
    if (step === undefined || event === undefined) break;
    area += step.below * (step.value - under);
    under = step.value;
    const left = event.atRisk - event.detected;
    if (left > 0) variance += (area * area * event.detected) / (event.atRisk * left);
  }
  return variance;
};
