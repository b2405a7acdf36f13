import { QuantityError } from '../quantity-error.ts';
import type { FlowModel } from './flow-model.ts';

/**
 * A flow model at many depths in one call: age (a) or layer (m a year), into an array that the caller keeps. Nothing is
 * allocated per depth; depths in any order.
 */
const atAll =
  (name: 'age' | 'layer') =>
  /**
   * @param depths in the metres of the model
   * @param out as long as `depths`; may be the same array
   * @throws QuantityError for arrays of two lengths, or a depth that the model refuses
   */
  (model: FlowModel, depths: Float64Array, out: Float64Array): Float64Array => {
    if (out.length !== depths.length)
      throw new QuantityError(
        model.name,
        `there is room for ${out.length} results`,
        `${depths.length}, one for each depth`,
      );
    const at = model[name];
    for (let i = 0; i < depths.length; i++) out[i] = at(depths[i]);
    return out;
  };

export const flowAgeAll = atAll('age');
export const flowLayerAll = atAll('layer');
