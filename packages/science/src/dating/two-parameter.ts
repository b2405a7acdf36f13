import { mustLie } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { type Flow, type FlowModel, flowModel } from './flow-model.ts';

/**
 * Age by the two-parameter model: layers thin as a power of what is left to the bed. With H thickness, A accumulation,
 * d depth: layer = A (1 - d/H)^(p+1), t = H/(A p) [(1 - d/H)^-p - 1]; the inverse d = H [1 - (1 + p A t/H)^(-1/p)].
 * With p = 0 it is Nye's.
 *
 * Source: J. F. Bolzan 1985, J. Geophys. Res. 90 (D5), 8111-8124, doi:10.1029/JD090iD05p08111 (from memory).
 *
 * Validity: steady state; A and p are fitted to horizons of the same core rather than taken from elsewhere. No published
 * scatter.
 *
 * @param flow in metres of water (or of ice throughout), `p` 0 to 20
 * @throws QuantityError outside
 */
export const twoParameter = (flow: Flow & { readonly p: Ratio }): FlowModel => {
  const { thickness: h, accumulation: b, p } = flow;
  const name = 'two-parameter (Bolzan 1985)';
  mustLie(name, 'p', p, 0, 20, '');
  // (e^(p x) - 1)/p and ln(1 + p y)/p, which are x and y for p = 0, and to the last digit for a p this small
  const none = p < 1e-14;
  const grown = (x: number) => (none ? x : Math.expm1(p * x) / p);
  const shrunk = (y: number) => (none ? y : Math.log1p(p * y) / p);
  return flowModel(name, flow, {
    age: (d) => (h / b) * grown(-Math.log1p(-d / h)),
    // a power of its own costs four times as much
    thinning: (d) => Math.exp((p + 1) * Math.log1p(-d / h)),
    depthOfAge: (t) => -h * Math.expm1(-shrunk((b * t) / h)),
  });
};
