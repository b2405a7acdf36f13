import { mustLie, QuantityError } from '../quantity-error.ts';
import { studentQuantile } from '../statistics/student.ts';
import type { CalibrationLine } from './calibration-line.ts';
import type { Measured } from './measured.ts';

/** Mean of a sample's readings. */
export interface SampleReading {
  readonly mean: number;
  /** How many readings were averaged. */
  readonly replicates: number;
  /** Standard deviation of one of them: only for a weighted line, which cannot know it. */
  readonly sd?: number;
}

export interface CalibratedContent extends Measured {
  /** 95 % by Student's t; infinite degrees of freedom where the scatter was stated. */
  readonly interval: readonly [number, number];
  /** Outside the standards: the line is not known to go on there. */
  readonly extrapolated: boolean;
  /** Squared relative 95 % error of the slope: above 0.05 the uncertainty, which is of first order, is too small. */
  readonly curvature: number;
}

/**
 * Content of a sample from its reading: x_0 = (y_0 - a)/b, with
 * u(x_0) = s/b sqrt[1/(m w_0) + 1/n + (y_0 - mean y)^2/(b^2 S_xx)], m replicates of weight w_0 (1 for a line without
 * weights).
 *
 * Source: J. C. Miller, J. N. Miller, Statistics and Chemometrics for Analytical Chemistry, plain and weighted (from
 * memory); the approximation of E. C. Fieller's exact limits for a well-known slope (`curvature`).
 *
 * @throws QuantityError where the slope cannot be told from zero at 95 %, or a deviation is missing or to spare
 */
export const inverseCalibration = (line: CalibrationLine, sample: SampleReading): CalibratedContent => {
  const where = 'inverse calibration';
  const { mean, replicates, sd } = sample;
  mustLie(where, 'reading', mean, -1e150, 1e150, '');
  mustLie(where, 'replicates', replicates, 1, 1e6, '');
  const weighted = line.weightOfOne !== null;
  if (weighted !== (sd !== undefined))
    throw new QuantityError(
      where,
      weighted ? 'the reading has no standard deviation' : 'the reading has a standard deviation',
      weighted ? 'one, since the line is weighted' : 'none, since the line is not weighted',
    );
  if (sd !== undefined) mustLie(where, 'standard deviation of a reading', sd, 1e-150, 1e150, '');
  const weight = line.weightOfOne === null || sd === undefined ? 1 : line.weightOfOne / sd ** 2;
  const t = studentQuantile(0.975, line.degreesOfFreedom);
  const slope = line.slope.value;
  const curvature = ((t * line.slope.sd) / slope) ** 2;
  if (!(curvature < 1))
    throw new QuantityError(
      where,
      `the slope is ${slope} ± ${line.slope.sd}`,
      'one that differs from 0 at 95 %',
    );
  const value = (mean - line.intercept.value) / slope;
  const ofLine = 1 / line.count + ((mean - line.meanReading) / slope) ** 2 / line.spread;
  const u = (line.scatter / Math.abs(slope)) * Math.sqrt(1 / (replicates * weight) + ofLine);
  return {
    value,
    sd: u,
    interval: [value - t * u, value + t * u],
    extrapolated: value < line.range[0] || value > line.range[1],
    curvature,
  };
};
