import { type FirnSite, herronLangway } from '../firn/herron-langway.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import type {
  KilogramsPerCubicMetre,
  Metres,
  MetresIceEquivalent,
  MetresWaterEquivalent,
  Ratio,
  Years,
} from '../units.ts';
import { dansgaardJohnsen } from './dansgaard-johnsen.ts';
import { deepestShare, type FlowModel } from './flow-model.ts';
import { nye } from './nye.ts';
import { twoParameter } from './two-parameter.ts';

/** Flow models by author, with the shape that each needs: the kink's height as a share of the thickness, or p. */
export type FlowShape =
  | { readonly model: 'Nye 1963' }
  | { readonly model: 'Dansgaard & Johnsen 1969'; readonly kinkShare: Ratio }
  | { readonly model: 'two-parameter (Bolzan 1985)'; readonly p: Ratio };

/** @throws QuantityError as the model does */
export const flowOf = (shape: FlowShape, thickness: number, accumulation: number): FlowModel => {
  const flow = { thickness, accumulation };
  switch (shape.model) {
    case 'Nye 1963':
      return nye(flow);
    case 'Dansgaard & Johnsen 1969':
      return dansgaardJohnsen({ ...flow, kink: shape.kinkShare * thickness });
    case 'two-parameter (Bolzan 1985)':
      return twoParameter({ ...flow, p: shape.p });
  }
};

export interface AgeAtDepth {
  readonly age: Years;
  /** A year's layer as it lies there, and its water. */
  readonly layer: Metres;
  readonly layerWater: MetresWaterEquivalent;
  readonly density: KilogramsPerCubicMetre;
  readonly waterDepth: MetresWaterEquivalent;
  readonly iceDepth: MetresIceEquivalent;
  readonly thinning: Ratio;
}

/**
 * Age and thickness of a year's layer at a real depth: firn by Herron & Langway 1980 turns metres into metres of ice,
 * in which the flow model counts; the layer goes back into real metres by the density there.
 *
 * Source: Herron & Langway 1980 (`herronLangway`) and the model named. The bed lies at a real depth too (radar), and
 * goes through the same firn. Ice is 917 kg/m3 throughout, as the firn model has it.
 *
 * Validity: that of both: a steady, dry climate, at a divide, above 0.99 of the thickness in metres of ice.
 *
 * @param thickness from surface to bed, m, firn included; 10 to 5000
 * @param depth from the surface, m
 * @throws QuantityError outside
 */
export const ageAtDepth = (
  site: FirnSite,
  shape: FlowShape,
  thickness: Metres,
  depth: Metres,
): AgeAtDepth => {
  mustLie('age at depth', 'thickness', thickness, 10, 5000, 'm');
  const column = herronLangway(site);
  const asIce = 1000 / column.iceDensity;
  const model = flowOf(shape, column.waterEquivalent(thickness) * asIce, site.accumulation * asIce);
  const deepest = column.depthOfWater((deepestShare * model.thickness) / asIce);
  if (!(depth >= 0 && depth <= deepest))
    throw new QuantityError(
      'age at depth',
      `depth is ${depth} m of ${thickness} m`,
      `0 to ${deepest.toFixed(2)} m: below ${deepestShare} of the ice ages have no bound`,
    );
  const density = column.density(depth);
  const waterDepth = column.waterEquivalent(depth);
  const iceDepth = waterDepth * asIce;
  const layerWater = model.layer(iceDepth) / asIce;
  return {
    age: model.age(iceDepth),
    layer: (1000 * layerWater) / density,
    layerWater,
    density,
    waterDepth,
    iceDepth,
    thinning: model.thinning(iceDepth),
  };
};
