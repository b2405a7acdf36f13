import { QuantityError } from '../quantity-error.ts';
import type { Years } from '../units.ts';
import type { Equivalent, FlowModel } from './flow-model.ts';

/**
 * Accumulation that a stretch of core of known years fell with, its thinning taken out: the integral of 1/thinning over
 * the stretch, by the years in it. Since a model's age is that integral over its accumulation, this is
 * a [t(bottom) - t(top)]/years, whatever a the model was made with.
 *
 * Source: definition of thinning; the models' own files. In all three models vertical velocity is accumulation times a
 * fixed function of depth, so a layer's thinning depends on its depth alone: the result holds for accumulation that
 * changed, as long as thickness and the shape of the flow did not.
 *
 * @param top of the stretch, in the metres of the model
 * @param years in the stretch, above 0
 * @returns metres a year, of the model's kind
 * @throws QuantityError for a stretch that does not go down, years that are not above 0
 */
export const accumulationOfLayer = (
  model: FlowModel,
  top: Equivalent,
  bottom: Equivalent,
  years: Years,
): Equivalent => {
  const where = 'accumulation of a layer';
  if (!(bottom > top))
    throw new QuantityError(where, `the stretch is from ${top} m to ${bottom} m`, 'downwards');
  if (!(years > 0 && years < 1e7))
    throw new QuantityError(where, `years are ${years}`, 'above 0 to 10,000,000');
  return (model.accumulation * (model.age(bottom) - model.age(top))) / years;
};
