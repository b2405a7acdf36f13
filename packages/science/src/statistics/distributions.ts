import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Random } from '../random/index.ts';
import { mustBeCorrelation } from './propagate.ts';

/** What is known of a quantity: table 1 of JCGM 101:2008. */
export type Distribution =
  | { readonly kind: 'normal'; readonly mean: number; readonly sd: number }
  /** From a mean of repeated readings: t scaled by s/sqrt(n). */
  | { readonly kind: 'student'; readonly mean: number; readonly scale: number; readonly degrees: number }
  /** Somewhere between limits. */
  | { readonly kind: 'rectangular'; readonly low: number; readonly high: number }
  /** Sum of two alike rectangles. */
  | { readonly kind: 'triangular'; readonly low: number; readonly high: number }
  /** Something that swings between limits. */
  | { readonly kind: 'arcsine'; readonly low: number; readonly high: number }
  /** Above 0, of this mean. */
  | { readonly kind: 'exponential'; readonly mean: number };

const where = 'JCGM 101:2008';

/** Draws of one quantity. @throws QuantityError for parameters that make no distribution */
export const drawer = (what: Distribution, random: Random): (() => number) => {
  switch (what.kind) {
    case 'normal':
      mustLie(where, 'standard deviation', what.sd, 0, Number.MAX_VALUE, '');
      return () => what.mean + what.sd * random.normal();
    case 'student':
      mustLie(where, 'scale', what.scale, 0, Number.MAX_VALUE, '');
      mustLie(where, 'degrees of freedom', what.degrees, 0.5, Number.MAX_VALUE, '');
      return () => what.mean + what.scale * random.studentT(what.degrees);
    case 'exponential':
      mustLie(where, 'mean', what.mean, Number.MIN_VALUE, Number.MAX_VALUE, '');
      return () => what.mean * random.exponential();
    default: {
      const { low, high } = what;
      if (!(low <= high))
        throw new QuantityError(where, `limits are ${low} and ${high}`, 'the lower one first');
      const half = (high - low) / 2;
      if (what.kind === 'rectangular') return () => low + (high - low) * random.uniform();
      if (what.kind === 'triangular') return () => low + half * (random.uniform() + random.uniform());
      return () => low + half * (1 + Math.sin(2 * Math.PI * random.uniform()));
    }
  }
};

/** Draws of normal quantities that hang together, by the Cholesky root of their correlations (6.4.8, note 2, C.5). */
export const correlatedNormals = (
  inputs: readonly Distribution[],
  correlation: readonly (readonly number[])[],
  random: Random,
): ((out: number[]) => void) => {
  mustBeCorrelation(correlation, inputs.length);
  const root = correlation.map(() => new Array<number>(inputs.length).fill(0));
  for (let i = 0; i < inputs.length; i++)
    for (let j = 0; j <= i; j++) {
      let left = correlation[i][j];
      for (let k = 0; k < j; k++) left -= root[i][k] * root[j][k];
      if (i === j && left < -1e-12)
        throw new QuantityError(
          where,
          'the correlations contradict each other',
          'a positive definite matrix',
        );
      root[i][j] = i === j ? Math.sqrt(Math.max(left, 0)) : root[j][j] === 0 ? 0 : left / root[j][j];
    }
  const draws = inputs.map((input, i) => {
    if (input.kind !== 'normal' && correlation[i].some((r, j) => i !== j && r !== 0))
      throw new QuantityError(where, `quantity ${i + 1} is ${input.kind} and correlated`, 'normal ones');
    return drawer(input, random);
  });
  const z = new Float64Array(inputs.length);
  return (out) => {
    for (let i = 0; i < z.length; i++) z[i] = random.normal();
    for (let i = 0; i < z.length; i++) {
      const input = inputs[i];
      let sum = 0;
      for (let k = 0; k <= i; k++) sum += root[i][k] * z[k];
      out[i] = input.kind === 'normal' ? input.mean + input.sd * sum : draws[i]();
    }
  };
};
