import { type Flow, type FlowModel, flowModel } from './flow-model.ts';

/**
 * Age by Nye: the ice thins evenly from surface to bed. With H thickness, a accumulation, z = H - d height above the bed:
 * t = (H/a) ln(H/z), layer = a z/H; the inverse d = H (1 - exp(-a t/H)).
 *
 * Source: J. F. Nye 1963, J. Glaciol. 4, 785 (from memory; an independent public page gives the same ages).
 *
 * Validity: steady state, at a divide, nothing melting at the bed; poor in the lowest third, where ice is sheared.
 * No published scatter: errors are those of H and a.
 *
 * @param flow H and a in metres of ice (or of water, as then all depths are), 1 to 5000 m and 0.001 to 10 m/a
 * @throws QuantityError outside
 */
export const nye = (flow: Flow): FlowModel => {
  const { thickness: h, accumulation: a } = flow;
  return flowModel('Nye 1963', flow, {
    age: (d) => (-h / a) * Math.log1p(-d / h),
    thinning: (d) => 1 - d / h,
    depthOfAge: (t) => -h * Math.expm1((-a * t) / h),
  });
};
