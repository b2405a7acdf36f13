import { mustLie } from '../quantity-error.ts';
import type { Ratio } from '../units.ts';
import { rootBetween } from './root.ts';
import type { Shape } from './shape.ts';

/** What is left of the difference to the surroundings: (T - T_out)/(T_start - T_out). */
export interface Transient {
  readonly centre: Ratio;
  readonly surface: Ratio;
  /** Over the volume: what the body has yet to take up, as a share of all. */
  readonly mean: Ratio;
  /** How many terms of the series were summed. */
  readonly terms: number;
  /** At a place between 0 (middle) and 1 (surface). @throws QuantityError outside */
  readonly at: (place: Ratio) => Ratio;
}

/** What is left out is below this: e^(-zeta^2 Fo) of the next term. */
const neglected = 1e-17;
/** More would mean that only the skin has noticed anything: `semi-infinite.ts` is for that. */
const mostTerms = 400;
/** Where that is: zeta grows by pi a term. */
const leastFourier = 3e-5;

/**
 * A body at one temperature, put at time 0 into surroundings at another: full series of eigenfunctions.
 *
 * theta = sum_n C_n profile(zeta_n x) exp(-zeta_n^2 Fo), Fo = a t/L^2, Bi = h L/k, a = k/(rho c). Terms are added until
 * the next one's decay is below 1e-17; how many there were is a part of the result. Eigenvalues are found between
 * brackets that hold exactly one each.
 *
 * Source: H. S. Carslaw and J. C. Jaeger 1959, Conduction of Heat in Solids, 2nd edition, 3.11, 7.7, 9.4 (from memory);
 * M. P. Heisler 1947, Trans. ASME 69, 227-236 (from memory).
 *
 * Validity: properties that do not change with temperature; no melting; Bi 1e-4 to 1e6 (a smaller one is a lumped body,
 * a greater one a held surface).
 *
 * @param biot h L/k, or null where the surface is held at the temperature outside
 * @param fourier 0, or 3e-5 and more
 * @throws QuantityError outside
 */
export const transient = (shape: Shape, biot: Ratio | null, fourier: Ratio): Transient => {
  const where = `heat into a ${shape.name}`;
  if (biot !== null) mustLie(where, 'Biot number', biot, 1e-4, 1e6, '');
  if (fourier !== 0) mustLie(where, 'Fourier number', fourier, leastFourier, Number.MAX_VALUE, '');
  const zetas: number[] = [];
  const weights: number[] = [];
  for (let n = 1; n <= mostTerms && fourier !== 0; n++) {
    const zeta = biot === null ? shape.held(n) : eigenvalue(shape, biot, n);
    const decay = Math.exp(-zeta * zeta * fourier);
    if (n > 1 && decay < neglected) break;
    zetas.push(zeta);
    weights.push(shape.coefficient(zeta) * decay);
  }
  const sum = (of: (zeta: number) => number): Ratio =>
    zetas.length === 0 ? 1 : zetas.reduce((total, zeta, n) => total + weights[n] * of(zeta), 0);
  const at = (place: Ratio): Ratio => {
    mustLie(where, 'place', place, 0, 1, '');
    return sum((zeta) => shape.profile(zeta, place));
  };
  return { centre: at(0), surface: at(1), mean: sum(shape.meanProfile), terms: zetas.length, at };
};

/** First term of the series: what charts of old were drawn from. Off by less than 2 % from Fo 0.2 on. */
export interface OneTerm {
  readonly zeta: number;
  readonly coefficient: number;
}

/**
 * First eigenvalue and coefficient of a body, the two numbers of a Heisler chart.
 *
 * Source: M. P. Heisler 1947, Trans. ASME 69, 227-236 (from memory).
 *
 * @throws QuantityError for a Biot number outside 1e-4 to 1e6
 */
export const heislerTerm = (shape: Shape, biot: Ratio): OneTerm => {
  mustLie(`heat into a ${shape.name}`, 'Biot number', biot, 1e-4, 1e6, '');
  const zeta = eigenvalue(shape, biot, 1);
  return { zeta, coefficient: shape.coefficient(zeta) };
};

const eigenvalue = (shape: Shape, biot: Ratio, n: number): number =>
  rootBetween((zeta) => shape.eigen(zeta, biot), ...shape.bracket(n));
