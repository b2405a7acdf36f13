import { mustLie, QuantityError } from '../quantity-error.ts';
import type { MetresIceEquivalent, MetresWaterEquivalent, Ratio, Years } from '../units.ts';

/** Metres of ice or metres of water: one of the two for all lengths of a model, never real metres of firn. */
export type Equivalent = MetresIceEquivalent | MetresWaterEquivalent;

/** Steady flow of an ice sheet or cap at a divide: how old, and how thin, a year's layer is at a depth. */
export interface FlowModel {
  /** Author and year. */
  readonly name: string;
  readonly thickness: Equivalent;
  /** A year's accumulation, in the same metres. */
  readonly accumulation: Equivalent;
  /** All: @throws QuantityError for a depth above the surface or below 0.99 of the thickness. */
  readonly age: (depth: Equivalent) => Years;
  /** Thickness of a year's layer. */
  readonly layer: (depth: Equivalent) => Equivalent;
  /** What is left of a layer's first thickness: layer over accumulation. */
  readonly thinning: (depth: Equivalent) => Ratio;
  /** The inverse of `age`. @throws QuantityError for an age below 0, or one that lies deeper than 0.99 of the thickness */
  readonly depthOfAge: (age: Years) => Equivalent;
}

/** Age grows without bound towards the bed: below this share of the thickness none is given (common practice). */
export const deepestShare: Ratio = 0.99;

export interface Flow {
  readonly thickness: Equivalent;
  readonly accumulation: Equivalent;
}

/** A model's own equations, in the depth below the surface; the checks are common to all. */
interface Equations {
  readonly age: (depth: number) => number;
  readonly thinning: (depth: number) => number;
  readonly depthOfAge: (age: number) => number;
}

/**
 * A flow model of its equations, with the checks that they share.
 *
 * @throws QuantityError for a thickness outside 1 to 5000 m, an accumulation outside 0.001 to 10 m/a
 */
export const flowModel = (name: string, flow: Flow, equations: Equations): FlowModel => {
  const { thickness, accumulation } = flow;
  mustLie(name, 'thickness', thickness, 1, 5000, 'm');
  mustLie(name, 'accumulation', accumulation, 0.001, 10, 'm/a');
  // a rounding of the limit itself must not be refused
  const deepest = deepestShare * thickness * (1 + 1e-12);
  const held = (depth: number): number => {
    if (depth >= 0 && depth <= deepest) return depth;
    throw new QuantityError(
      name,
      `depth is ${depth} m`,
      `0 to ${deepestShare * thickness} m, ${deepestShare} of the thickness: below it ages have no bound`,
    );
  };
  const age = (depth: Equivalent) => equations.age(held(depth));
  const oldest = equations.age(deepestShare * thickness);
  return {
    name,
    thickness,
    accumulation,
    age,
    layer: (depth) => accumulation * equations.thinning(held(depth)),
    thinning: (depth) => equations.thinning(held(depth)),
    depthOfAge: (years) => {
      mustLie(name, 'age', years, 0, oldest * (1 + 1e-12), 'a');
      return equations.depthOfAge(years);
    },
  };
};
