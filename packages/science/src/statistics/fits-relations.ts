import { QuantityError } from '../quantity-error.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { anyNumber, covarianceKind, deviations, list, spread } from './asked.ts';
import { lineBothVariables } from './both-variables.ts';
import { namedCurves } from './curves.ts';
import { monotoneSpline } from './monotone-spline.ts';
import { fitNonlinear } from './nonlinear-fit.ts';
import { fitPolynomial } from './polynomial-fit.ts';
import { smoothingSpline } from './smoothing-spline.ts';
import { fitStraightLine } from './straight-line.ts';
import { weightedMean } from './weighted-mean.ts';

/** Fits and curves: what a person can call by name. */
export const fitsRelations: readonly Relation[] = [
  relation({
    name: 'straight-line',
    title: 'Straight line by weighted least squares',
    page: 'least-squares',
    source: 'JCGM 100:2008, H.3; C. L. Lawson & R. J. Hanson 1974 (from memory)',
    takes: {
      x: list('x', 'where'),
      y: list('y', 'what was measured there'),
      sd: deviations('s', 'standard deviation of y: one for all, or one for each'),
      covariance: covarianceKind,
      origin: {
        ...numberTaken('x0', 'x at which the intercept is taken', '1', anyNumber, 'what a machine holds'),
        usual: 0,
      },
    },
    gives: {
      intercept: { symbol: 'b0', what: 'value at the origin', unit: '1' },
      slope: { symbol: 'b1', what: 'slope', unit: '1' },
      interceptSd: { symbol: 's(b0)', what: 'standard deviation of the intercept', unit: '1' },
      slopeSd: { symbol: 's(b1)', what: 'standard deviation of the slope', unit: '1' },
      correlation: { symbol: 'r', what: 'correlation of intercept and slope', unit: '1' },
      chiSquare: { symbol: 'chi2', what: 'weighted sum of squared residuals', unit: '1' },
      degrees: { symbol: 'nu', what: 'degrees of freedom', unit: '1' },
    },
    compute: ({ x, y, sd, covariance, origin }) => {
      const fit = fitStraightLine(x, y, { sd: spread('straight-line', sd, y.length), covariance, origin });
      return {
        intercept: fit.intercept,
        slope: fit.slope,
        interceptSd: fit.sd[0],
        slopeSd: fit.sd[1],
        correlation: fit.correlation,
        chiSquare: fit.chiSquare,
        degrees: fit.degrees,
      };
    },
  }),
  relation({
    name: 'polynomial',
    title: 'Polynomial by least squares',
    page: 'least-squares',
    source: 'C. L. Lawson & R. J. Hanson 1974 (from memory); checked against NIST/ITL StRD',
    takes: {
      x: list('x', 'where'),
      y: list('y', 'what was measured there'),
      degree: numberTaken('k', 'highest power', '1', [0, 20], 'powers above say nothing in 16 digits'),
    },
    gives: {
      coefficients: { symbol: 'b', what: 'coefficients from the constant upwards', unit: '1' },
      sd: { symbol: 's(b)', what: 'their standard deviations, scaled by the scatter', unit: '1' },
      scatter: { symbol: 's', what: 'standard deviation of one of the data about the curve', unit: '1' },
      degrees: { symbol: 'nu', what: 'degrees of freedom', unit: '1' },
    },
    compute: ({ x, y, degree }) => {
      const fit = fitPolynomial(x, y, degree);
      return {
        coefficients: fit.coefficients,
        sd: fit.sd,
        scatter: Math.sqrt(fit.chiSquare / fit.degrees),
        degrees: fit.degrees,
      };
    },
  }),
  relation({
    name: 'fit-curve',
    title: 'Curve with parameters by nonlinear least squares',
    page: 'nonlinear-fit',
    source: 'Levenberg 1944, Marquardt 1963 (from memory); checked against NIST/ITL StRD',
    takes: {
      x: list('x', 'where'),
      y: list('y', 'what was measured there'),
      curve: {
        kind: 'choice',
        symbol: 'f',
        what: 'saturating b1 (1 - exp(-b2 x)), power b1 x^b2, peak (b1/b2) exp(-((x - b3)/b2)^2/2), richards b1/(1 + exp(b2 - b3 x))^(1/b4)',
        options: ['saturating', 'power', 'peak', 'richards'],
      },
      start: list('b', 'parameters to start from, as many as the curve has'),
    },
    gives: {
      parameters: { symbol: 'b', what: 'parameters', unit: '1' },
      sd: { symbol: 's(b)', what: 'their standard deviations, scaled by the scatter', unit: '1' },
      scatter: { symbol: 's', what: 'standard deviation of one of the data about the curve', unit: '1' },
      degrees: { symbol: 'nu', what: 'degrees of freedom', unit: '1' },
    },
    compute: ({ x, y, curve, start }) => {
      const { curve: chosen, parameters } = namedCurves[curve];
      if (start.length !== parameters)
        throw new QuantityError(
          'fit-curve',
          `${start.length} parameters to start from`,
          `${parameters} for ${curve}`,
        );
      const fit = fitNonlinear(chosen, x, y, start);
      return {
        parameters: fit.coefficients,
        sd: fit.sd,
        scatter: Math.sqrt(fit.chiSquare / fit.degrees),
        degrees: fit.degrees,
      };
    },
  }),
  relation({
    name: 'line-both-variables',
    title: 'Straight line where both variables have errors',
    page: 'both-variables',
    source: 'D. York et al. 2004, Am. J. Phys. 72, 367-375, eqs. (13a) to (13d), doi:10.1119/1.1632486',
    takes: {
      x: list('X', 'the one variable'),
      y: list('Y', 'the other variable'),
      xSd: deviations('s(X)', 'standard deviation of X: one for all, or one for each'),
      ySd: deviations('s(Y)', 'standard deviation of Y: one for all, or one for each'),
      correlation: {
        ...numberTaken(
          'r',
          'correlation of the errors of X and Y, alike for all points',
          '1',
          [-0.999, 0.999],
          'by definition, the ends excluded',
        ),
        usual: 0,
      },
    },
    gives: {
      intercept: { symbol: 'a', what: 'value at X = 0', unit: '1' },
      slope: { symbol: 'b', what: 'slope', unit: '1' },
      interceptSd: {
        symbol: 's(a)',
        what: 'standard deviation of the intercept by the errors alone',
        unit: '1',
      },
      slopeSd: { symbol: 's(b)', what: 'standard deviation of the slope by the errors alone', unit: '1' },
      chiSquare: { symbol: 'S', what: 'weighted sum of squared distances', unit: '1' },
      degrees: { symbol: 'nu', what: 'degrees of freedom', unit: '1' },
    },
    compute: ({ x, y, xSd, ySd, correlation }) => {
      const of = (sd: readonly number[]) => spread('line-both-variables', sd, x.length);
      const { intercept, slope, interceptSd, slopeSd, chiSquare, degrees } = lineBothVariables(
        x,
        y,
        of(xSd),
        of(ySd),
        x.map(() => correlation),
      );
      return { intercept, slope, interceptSd, slopeSd, chiSquare, degrees };
    },
  }),
  relation({
    name: 'weighted-mean',
    title: 'Mean of values of unlike standard deviations',
    page: 'least-squares',
    source: 'R. T. Birge 1932, Phys. Rev. 40, 207-227 (from memory)',
    takes: {
      values: list('x', 'values'),
      sd: deviations('s', 'their standard deviations: one for all, or one for each'),
    },
    gives: {
      mean: { symbol: 'm', what: 'weighted mean', unit: '1' },
      internalSd: { symbol: 's(int)', what: 'standard deviation by the errors given', unit: '1' },
      externalSd: { symbol: 's(ext)', what: 'standard deviation by the scatter', unit: '1' },
      chiSquare: { symbol: 'chi2', what: 'weighted sum of squares about the mean', unit: '1' },
      degrees: { symbol: 'nu', what: 'degrees of freedom', unit: '1' },
      chance: { symbol: 'p', what: 'chance of as large a chi-square if the errors are right', unit: '1' },
    },
    compute: ({ values, sd }) => {
      const { p, ...rest } = weightedMean(values, spread('weighted-mean', sd, values.length));
      return { ...rest, chance: p };
    },
  }),
  relation({
    name: 'monotone-spline',
    title: 'Smooth curve through knots that turns at knots only',
    page: 'splines',
    source:
      'M. Steffen 1990, Astron. Astrophys. 239, 443-450; F. N. Fritsch & R. E. Carlson 1980, doi:10.1137/0717021 (from memory)',
    takes: {
      x: list('x', 'knots, rising'),
      y: list('y', 'values at the knots'),
      at: list('x', 'where the curve is asked for'),
      variant: {
        kind: 'choice',
        symbol: 'slopes',
        what: 'whose slopes',
        options: ['Steffen 1990', 'Fritsch & Carlson 1980'],
      },
    },
    gives: {
      values: { symbol: 'f', what: 'values of the curve', unit: '1' },
      slopes: { symbol: "f'", what: 'its slopes', unit: '1' },
    },
    compute: ({ x, y, at, variant }) => {
      const curve = monotoneSpline(x, y, variant);
      return { values: at.map(curve.at), slopes: at.map(curve.slopeAt) };
    },
  }),
  relation({
    name: 'smoothing-spline',
    title: 'Smooth curve near data with errors',
    page: 'splines',
    source: 'C. H. Reinsch 1967; P. Craven & G. Wahba 1979; G. Wahba 1983 (from memory)',
    takes: {
      x: list('x', 'where, rising'),
      y: list('y', 'what was measured there'),
    },
    gives: {
      values: { symbol: 'f', what: 'smoothed values', unit: '1' },
      sd: { symbol: 's(f)', what: 'their standard deviations', unit: '1' },
      scatter: { symbol: 's', what: 'standard deviation of one of the data about the curve', unit: '1' },
      degrees: { symbol: 'df', what: 'parameters that the curve is worth', unit: '1' },
      penalty: { symbol: 'lambda', what: 'price of bending, by generalised cross-validation', unit: '1' },
    },
    compute: ({ x, y }) => {
      const { values, sd, sigma, degrees, penalty } = smoothingSpline(x, y);
      return { values, sd, scatter: sigma, degrees, penalty };
    },
  }),
];
