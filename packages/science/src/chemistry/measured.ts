import { mustLie, QuantityError } from '../quantity-error.ts';

/** A value and its standard uncertainty, in the same unit. */
export interface Measured<Unit extends number = number> {
  readonly value: Unit;
  readonly sd: Unit;
}

/** @throws QuantityError unless low <= value <= high and the uncertainty is a number, 0 or more */
export const mustBeMeasured = (
  where: string,
  name: string,
  { value, sd }: Measured,
  unit = '',
  low = -Number.MAX_VALUE,
  high = Number.MAX_VALUE,
): void => {
  mustLie(where, name, value, low, high, unit);
  mustLie(where, `standard uncertainty of ${name}`, sd, 0, Number.MAX_VALUE, unit);
};

/** @throws QuantityError for a covariance that two values of these uncertainties cannot have */
export const mustBeCovariance = (where: string, covariance: number, a: Measured, b: Measured): void => {
  const most = a.sd * b.sd;
  if (Math.abs(covariance) <= most * (1 + 1e-12)) return;
  throw new QuantityError(
    where,
    `covariance is ${covariance}`,
    `${-most} to ${most}, the product of the two standard uncertainties`,
  );
};

/** Variances that rounding has made a hair negative are none. */
export const rootOf = (variance: number): number => Math.sqrt(Math.max(0, variance));
