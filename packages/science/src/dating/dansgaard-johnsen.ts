import { mustLie } from '../quantity-error.ts';
import { type Equivalent, type Flow, type FlowModel, flowModel } from './flow-model.ts';

/**
 * Age by Dansgaard & Johnsen: horizontal velocity is the same from the surface down to a kink at height h above the bed,
 * then falls evenly to 0. With H thickness, a accumulation, z height above the bed:
 * - z >= h: t = (2H - h)/(2a) ln[(2H - h)/(2z - h)], layer = a (2z - h)/(2H - h);
 * - z < h: t = t(h) + (2H - h)/a (h/z - 1), layer = a z^2/[h (2H - h)].
 * The inverse is closed in both parts. With h = 0 it is Nye's.
 *
 * Source: W. Dansgaard and S. J. Johnsen 1969, J. Glaciol. 8(53), 215-223 (ages as a public analysis script has them,
 * layers derived from them).
 *
 * Validity: steady state, at a divide, frozen to the bed. No published scatter.
 *
 * @param flow in metres of ice (or of water throughout), `kink` 0 to below H
 * @throws QuantityError outside
 */
export const dansgaardJohnsen = (flow: Flow & { readonly kink: Equivalent }): FlowModel => {
  const { thickness, accumulation: a, kink: h } = flow;
  const name = 'Dansgaard & Johnsen 1969';
  mustLie(name, 'height of the kink', h, 0, 0.999 * thickness, 'm');
  const w = 2 * thickness - h;
  // above the kink (w - 2 d) = 2z - h, so that small depths lose no digits
  const above = (d: number) => (-w / (2 * a)) * Math.log1p((-2 * d) / w);
  const depthOfKink = thickness - h;
  const ageOfKink = h === 0 ? Number.POSITIVE_INFINITY : above(depthOfKink);
  return flowModel(name, flow, {
    age: (d) => (d <= depthOfKink ? above(d) : ageOfKink + (w / a) * (h / (thickness - d) - 1)),
    thinning: (d) => (d <= depthOfKink ? 1 - (2 * d) / w : (thickness - d) ** 2 / (h * w)),
    depthOfAge: (t) =>
      t <= ageOfKink
        ? (-w / 2) * Math.expm1((-2 * a * t) / w)
        : thickness - h / (1 + (a * (t - ageOfKink)) / w),
  });
};
