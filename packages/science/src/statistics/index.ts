export { type Alignment, type AlignOptions, align, alignmentCost, type Cost, pathCount } from './align.ts';
export { autocorrelation } from './autocorrelation.ts';
export { type BootstrapCorrelation, bootstrapCorrelation } from './block-bootstrap.ts';
export { type BlockLength, blockLength } from './block-length.ts';
export { type LineBothVariables, lineBothVariables } from './both-variables.ts';
export { type ChangePoints, changePoints } from './change-points.ts';
export { correlateSeries, correlationTest, pearson } from './correlation.ts';
export { coverageFactor } from './coverage-factor.ts';
export { cubicRatio, peak, power, quadraticRatio, richards, saturating, twoBells } from './curves.ts';
export type { Distribution } from './distributions.ts';
export {
  capped,
  effectivePairs,
  effectivePairsByLags,
  effectiveValues,
  effectiveValuesExact,
} from './effective-size.ts';
export { type Formula, readFormula } from './formula.ts';
export { type CovarianceKind, fitLinear, type LinearFit } from './linear-fit.ts';
export { type MonotoneVariant, monotoneSpline } from './monotone-spline.ts';
export { type DrawnResult, firstOrderHolds, propagateByDrawing } from './monte-carlo.ts';
export { type Curve, fitNonlinear, type NonlinearFit } from './nonlinear-fit.ts';
export { normalBelow, normalDensity, normalQuantile } from './normal.ts';
export { persistenceTime } from './persistence-time.ts';
export { fitPolynomial } from './polynomial-fit.ts';
export { type InputQuantity, type Propagated, propagate } from './propagate.ts';
export { type QuantileRule, quantile } from './quantiles.ts';
export { type SecondOrder, secondOrder } from './second-order.ts';
export { naturalSpline, type SmoothingSpline, smoothingSpline } from './smoothing-spline.ts';
export { fitStraightLine, type StraightLine } from './straight-line.ts';
export { studentBelow, studentQuantile } from './student.ts';
export { type WeightedMean, weightedMean } from './weighted-mean.ts';
