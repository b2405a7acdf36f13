import { type CutNormal, cutNormal } from '../depth/gaussian-tail.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import { normalQuantile } from '../statistics/normal.ts';
import type { Ratio } from '../units.ts';
import { type CensoredReading, mustBeCensored } from './censored.ts';
import type { Measured } from './measured.ts';

/** Errors from the curvature of the likelihood at its top. */
export interface LognormalFit {
  /** Mean and standard deviation of ln x. */
  readonly mu: Measured;
  readonly sigma: Measured;
  readonly covariance: number;
  readonly mean: Measured;
  readonly sd: Measured;
  readonly median: Measured;
  /** Intervals from the logarithms of mean and median, so that they stay above zero. */
  readonly meanInterval: readonly [number, number];
  readonly medianInterval: readonly [number, number];
}

const where = 'censored lognormal, maximum likelihood';

/** Log-likelihood, its slopes and curvatures in theta = 1/sigma, eta = mu/sigma, in which it has one top (Olsen 1978). */
const likelihoodAt = (logs: readonly { y: number; below: boolean }[], theta: number, eta: number) => {
  const cut: CutNormal = { tail: 0, lift: 0, spread: 0 };
  let [value, byTheta, byEta, thetaTheta, thetaEta, etaEta] = [0, 0, 0, 0, 0, 0];
  for (const { y, below } of logs) {
    const z = theta * y - eta;
    if (!below) {
      value += Math.log(theta) - 0.5 * z * z;
      byTheta += 1 / theta - y * z;
      byEta += z;
      thetaTheta -= 1 / theta ** 2 + y * y;
      thetaEta += y;
      etaEta -= 1;
      continue;
    }
    cutNormal(z, cut);
    const hazard = cut.lift - z;
    const bend = -hazard * cut.lift;
    value += Math.log(cut.tail) - (z < 0 ? 0.5 * z * z : 0);
    byTheta += y * hazard;
    byEta -= hazard;
    thetaTheta += y * y * bend;
    thetaEta -= y * bend;
    etaEta += bend;
  }
  return { value, byTheta, byEta, thetaTheta, thetaEta, etaEta };
};

/** Newton's steps, halved until the likelihood grows: it is concave, so that they end at its top. */
const climb = (logs: readonly { y: number; below: boolean }[], start: { theta: number; eta: number }) => {
  let [at, here] = [start, likelihoodAt(logs, start.theta, start.eta)];
  for (let round = 0; round < 200; round += 1) {
    const { byTheta, byEta, thetaTheta, thetaEta, etaEta } = here;
    const determinant = thetaTheta * etaEta - thetaEta ** 2;
    const [stepTheta, stepEta] = [
      -(etaEta * byTheta - thetaEta * byEta) / determinant,
      -(thetaTheta * byEta - thetaEta * byTheta) / determinant,
    ];
    const gain = byTheta * stepTheta + byEta * stepEta;
    if (gain < 1e-22 * logs.length) break;
    let share = 1;
    while (at.theta + share * stepTheta <= 0) share /= 2;
    let next = { theta: at.theta + share * stepTheta, eta: at.eta + share * stepEta };
    let there = likelihoodAt(logs, next.theta, next.eta);
    while (!(there.value >= here.value - 1e-13 * Math.abs(here.value)) && share > 1e-9) {
      share /= 2;
      next = { theta: at.theta + share * stepTheta, eta: at.eta + share * stepEta };
      there = likelihoodAt(logs, next.theta, next.eta);
    }
    [at, here] = [next, there];
  }
  return { at, here };
};

/**
 * Lognormal distribution of values of which some are only known to lie below limits, by maximum likelihood: detected
 * values count with their density, the others with the probability of lying below their limit. From mu and sigma of
 * ln x: median e^mu, mean e^(mu + sigma^2/2), sd = mean sqrt(e^(sigma^2) - 1).
 *
 * Source: A. C. Cohen 1959, Technometrics 1, 217-237; parameters in which the likelihood is concave by R. J. Olsen 1978,
 * Econometrica 46, 1211; interval of the mean by D. R. Cox (in C. E. Land 1972); from memory. Errors by the inverse of the
 * observed information, the mean's and sd's by JCGM 100:2008, eq. (13). Validity: lognormal, and values enough: below
 * some 25 to 50, or above 80 % censored, mean and interval are known to be poor.
 *
 * @param confidence of both intervals, two-sided
 * @throws QuantityError for fewer than 2 different values detected, for values that are not above zero
 */
export const censoredLikelihood = (
  readings: readonly CensoredReading[],
  confidence: Ratio = 0.95,
): LognormalFit => {
  mustBeCensored(where, readings, 2);
  mustLie(where, 'confidence', confidence, 0.01, 0.9999, '');
  const n = readings.length;
  // logarithms about their mean, in units of their spread: the curvature is then of order n either way
  const plain = readings.map(({ value }) => Math.log(value));
  const centre = plain.reduce((sum, y) => sum + y, 0) / n;
  const unit = Math.sqrt(plain.reduce((sum, y) => sum + (y - centre) ** 2, 0) / n);
  if (!(unit > 0)) throw new QuantityError(where, 'all values are alike', 'values that differ');
  const logs = readings.map(({ below }, i) => ({ y: ((plain[i] ?? 0) - centre) / unit, below }));
  const { at, here } = climb(logs, { theta: 1, eta: 0 });
  const determinant = here.thetaTheta * here.etaEta - here.thetaEta ** 2;
  if (!(determinant > 0))
    throw new QuantityError(
      where,
      'the likelihood has no top that can be told',
      'more values that were detected',
    );
  const [ofTheta, ofEta, ofBoth] = [
    -here.etaEta / determinant,
    -here.thetaTheta / determinant,
    here.thetaEta / determinant,
  ];
  const sigma = unit / at.theta;
  const mu = centre + unit * (at.eta / at.theta);
  // slopes of mu and sigma on theta and eta
  const [muTheta, muEta, sigmaTheta] = [
    (-unit * at.eta) / at.theta ** 2,
    unit / at.theta,
    -unit / at.theta ** 2,
  ];
  const muVariance = muTheta ** 2 * ofTheta + muEta ** 2 * ofEta + 2 * muTheta * muEta * ofBoth;
  const sigmaVariance = sigmaTheta ** 2 * ofTheta;
  const covariance = sigmaTheta * (muTheta * ofTheta + muEta * ofBoth);
  const variance = (byMu: number, bySigma: number): number =>
    byMu ** 2 * muVariance + bySigma ** 2 * sigmaVariance + 2 * byMu * bySigma * covariance;
  const median = Math.exp(mu);
  const mean = Math.exp(mu + sigma ** 2 / 2);
  const grown = Math.expm1(sigma ** 2);
  const sd = mean * Math.sqrt(grown);
  if (!Number.isFinite(sd))
    throw new QuantityError(
      where,
      `sigma of ln x is ${sigma}`,
      'values less far apart: mean and sd overflow',
    );
  const meanLogSd = Math.sqrt(variance(1, sigma));
  const z = normalQuantile((1 + confidence) / 2);
  const interval = (value: number, logSd: number) =>
    [value * Math.exp(-z * logSd), value * Math.exp(z * logSd)] as const;
  return {
    mu: { value: mu, sd: Math.sqrt(muVariance) },
    sigma: { value: sigma, sd: Math.sqrt(sigmaVariance) },
    covariance,
    mean: { value: mean, sd: mean * meanLogSd },
    sd: { value: sd, sd: Math.sqrt(variance(sd, sd * sigma * (1 + (grown + 1) / grown))) },
    median: { value: median, sd: median * Math.sqrt(muVariance) },
    meanInterval: interval(mean, meanLogSd),
    medianInterval: interval(median, Math.sqrt(muVariance)),
  };
};
