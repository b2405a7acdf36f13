import { QuantityError } from '../quantity-error.ts';
import type { MetresWaterEquivalent, Years } from '../units.ts';
import { decayConstant } from './decay.ts';

/** Unsupported 210Pb of a layer, where it lies in w.e. */
export interface Lead210Sample {
  /** Middle of the layer. */
  readonly depth: MetresWaterEquivalent;
  /** Any unit, above 0. */
  readonly concentration: number;
  /** Standard deviation of it, same unit. */
  readonly sd: number;
}

export interface ConstantFlux {
  /** m w.e. a year; its standard deviation counts the fit's and the half-life's. */
  readonly accumulation: MetresWaterEquivalent;
  readonly accumulationSd: MetresWaterEquivalent;
  /** Of ln C against depth, 1/(m w.e.); negative. */
  readonly slope: number;
  readonly slopeSd: number;
  /** Concentration at the surface by the line, and its standard deviation as a share. */
  readonly surface: number;
  readonly surfaceShare: number;
  /** Weighted sum of squares over the degrees of freedom; NaN for two samples. */
  readonly reducedChiSquare: number;
}

/** Accumulation that a slope of ln C against w.e. depth means: lambda/|slope|. @throws QuantityError for a slope that is not negative */
export const accumulationOfSlope = (slope: number, halfLife: Years): MetresWaterEquivalent => {
  if (slope < 0 && Number.isFinite(slope)) return decayConstant(halfLife) / -slope;
  throw new QuantityError(
    '210Pb, constant flux',
    `ln C changes by ${slope} a m w.e.`,
    'below 0: concentration must fall with depth',
  );
};

/**
 * Accumulation by unsupported 210Pb of constant flux and constant accumulation: ln C falls evenly with w.e. depth m, and
 * a = lambda/|d ln C/d m|. The line is fitted with weights (C/u_C)^2.
 *
 * Source: E. D. Goldberg 1963; P. G. Appleby and F. Oldfield 1978, Catena 5, 1-8 (names of the models from memory).
 * Weighted least squares of a straight line, standard deviations of slope and intercept by the samples' errors, times
 * the square root of the reduced chi square where that is above 1 (the samples scatter more than they say; common
 * practice).
 *
 * @param samples two or more, in any order
 * @throws QuantityError for fewer, concentrations or errors that are not above 0, samples all at one depth, or a
 *   concentration that does not fall
 */
export const constantFluxAccumulation = (
  samples: readonly Lead210Sample[],
  halfLife: Years,
  halfLifeSd: Years = 0,
): ConstantFlux => {
  const where = '210Pb, constant flux';
  if (samples.length < 2) throw new QuantityError(where, `there are ${samples.length} samples`, '2 or more');
  samples.forEach(({ depth, concentration, sd }, i) => {
    const name = `${where}, sample ${i + 1}`;
    if (!(depth >= 0 && depth < 5000))
      throw new QuantityError(name, `its depth is ${depth} m w.e.`, '0 to 5000 m w.e.');
    if (!(concentration > 0 && concentration < 1e12))
      throw new QuantityError(name, `its concentration is ${concentration}`, 'above 0');
    if (!(sd > 0 && sd < 1e12)) throw new QuantityError(name, `its standard deviation is ${sd}`, 'above 0');
  });
  let [weight, meanX, meanY] = [0, 0, 0];
  const points = samples.map(({ depth, concentration, sd }) => ({
    x: depth,
    y: Math.log(concentration),
    w: (concentration / sd) ** 2,
  }));
  for (const { x, y, w } of points) {
    weight += w;
    meanX += (w * (x - meanX)) / weight;
    meanY += (w * (y - meanY)) / weight;
  }
  let [xx, xy] = [0, 0];
  for (const { x, y, w } of points) {
    xx += w * (x - meanX) ** 2;
    xy += w * (x - meanX) * (y - meanY);
  }
  if (!(xx > 1e-20 * weight))
    throw new QuantityError(where, 'all samples lie at one depth', 'two depths or more');
  const slope = xy / xx;
  const squares = points.reduce((sum, { x, y, w }) => sum + w * (y - meanY - slope * (x - meanX)) ** 2, 0);
  const reducedChiSquare = squares / (points.length - 2);
  const widened = reducedChiSquare > 1 ? Math.sqrt(reducedChiSquare) : 1;
  const slopeSd = widened / Math.sqrt(xx);
  const accumulation = accumulationOfSlope(slope, halfLife);
  return {
    accumulation,
    accumulationSd: accumulation * Math.hypot(slopeSd / slope, halfLifeSd / halfLife),
    slope,
    slopeSd,
    surface: Math.exp(meanY - slope * meanX),
    surfaceShare: widened * Math.sqrt(1 / weight + meanX ** 2 / xx),
    reducedChiSquare,
  };
};
