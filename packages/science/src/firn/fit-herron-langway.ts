import { inverseOf } from '../density/positive-definite.ts';
import { QuantityError } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres, Ratio } from '../units.ts';
import { type FirnColumn, type FirnSite, herronLangway } from './herron-langway.ts';

/** Measured mean density of a stretch of core. */
export interface FirnLayer {
  readonly top: Metres;
  readonly bottom: Metres;
  readonly density: KilogramsPerCubicMetre;
  /** Standard deviation of its own; scatter of firn may be in it. */
  readonly sd: KilogramsPerCubicMetre;
  /** Error in common with all other layers, as a share of the density; 0 where there is none. */
  readonly sharedShare: Ratio;
}

/**
 * What of a site may be fitted: factors on k0 and k1, the surface density, the accumulation. Density over depth holds k1
 * and accumulation only as k1/A^0.5, so that these two can't be fitted together.
 */
export type FirnParameter = 'k0' | 'k1' | 'surfaceDensity' | 'accumulation';

/** A fitted value with the error by the layers' own, and by what they share. */
interface FittedParameter {
  readonly name: FirnParameter;
  /** Factor for k0 and k1, kg/m3 or m w.e./a for the others. */
  readonly value: number;
  readonly randomSd: number;
  readonly sharedSd: number;
}

export interface FirnFit {
  readonly site: FirnSite;
  readonly column: FirnColumn;
  readonly parameters: readonly FittedParameter[];
  /** Weighted sum of squares over the degrees of freedom. */
  readonly reducedChiSquare: number;
  readonly degrees: number;
  /** Root mean square of measured less modelled, not weighted, kg/m3; and of the site as it was given. */
  readonly rms: KilogramsPerCubicMetre;
  readonly rmsBefore: KilogramsPerCubicMetre;
  readonly converged: boolean;
}

/** Mean density of the model over a stretch: its water over its length, exact. */
export const meanDensity = (column: FirnColumn, top: Metres, bottom: Metres): KilogramsPerCubicMetre =>
  (1000 * (column.waterEquivalent(bottom) - column.waterEquivalent(top))) / (bottom - top);

/** Root mean square of measured less modelled means, kg/m3. */
export const rmsAgainst = (
  column: FirnColumn,
  layers: readonly Pick<FirnLayer, 'top' | 'bottom' | 'density'>[],
): KilogramsPerCubicMetre =>
  Math.sqrt(
    layers.reduce(
      (sum, { top, bottom, density }) => sum + (density - meanDensity(column, top, bottom)) ** 2,
      0,
    ) / layers.length,
  );

const mostSteps = 50;
/** A step that moves no parameter's log by more than this is the last. */
const still = 1e-8;

/**
 * Fits parameters of Herron & Langway 1980 to measured densities by weighted least squares (Levenberg 1944, Marquardt
 * 1963) on the logs of the parameters.
 *
 * Covariance (J^T W J)^-1, times the reduced chi square where that is above 1 (the layers scatter more than their
 * errors say; common practice). The shared part is how far the parameters move when all densities are off by their
 * shared standard deviation.
 *
 * It has steps of its own, not those of `statistics/nonlinear-fit`: slopes of the model are differences, whose rounding
 * hides from a rank test by QR that layers say nothing of a parameter, and every value needs the whole column anew.
 *
 * @param layers any order, at least one more than parameters
 * @throws QuantityError for too few layers, one without an error, or k1 together with accumulation
 */
export const fitHerronLangway = (
  site: FirnSite,
  layers: readonly FirnLayer[],
  names: readonly FirnParameter[] = ['k0', 'k1', 'surfaceDensity'],
): FirnFit => {
  check(layers, names);
  const weights = layers.map(({ sd }) => 1 / sd ** 2);
  const residuals = (at: FirnSite) => {
    const column = herronLangway(at);
    return layers.map(({ top, bottom, density }) => density - meanDensity(column, top, bottom));
  };
  const cost = (r: readonly number[]) => r.reduce((sum, x, i) => sum + weights[i] * x * x, 0);

  let at = site;
  let now = residuals(at);
  let damping = 1e-3;
  let converged = false;
  for (let step = 0; step < mostSteps && !converged; step++) {
    const { normal, pull } = normalEquations(at, now, names, residuals, weights);
    let isBetter = false;
    while (!isBetter && damping < 1e12) {
      const damped = normal.map((row, r) => row.map((x, c) => (r === c ? x * (1 + damping) : x)));
      const move = product(inverseOrRefuse(damped, names), pull);
      const next = moved(at, names, move);
      const after = next === null ? null : residuals(next);
      if (next !== null && after !== null && cost(after) <= cost(now)) {
        [at, now, isBetter] = [next, after, true];
        damping /= 10;
        converged = Math.max(...move.map(Math.abs)) < still;
      } else damping *= 10;
    }
    // no way down: this is the least
    if (!isBetter) converged = true;
  }
  const degrees = layers.length - names.length;
  const reducedChiSquare = cost(now) / degrees;
  const { normal, jacobian } = normalEquations(at, now, names, residuals, weights);
  const covariance = inverseOrRefuse(normal, names);
  const common = product(
    covariance,
    names.map((_, k) =>
      layers.reduce(
        (sum, { density, sharedShare }, i) => sum + jacobian[i][k] * weights[i] * density * sharedShare,
        0,
      ),
    ),
  );
  const widened = Math.max(1, reducedChiSquare);
  const column = herronLangway(at);
  return {
    site: at,
    column,
    parameters: names.map((name, k) => {
      const value = parameterOf(at, name);
      return {
        name,
        value,
        randomSd: value * Math.sqrt(covariance[k][k] * widened),
        sharedSd: value * Math.abs(common[k]),
      };
    }),
    reducedChiSquare,
    degrees,
    rms: rmsAgainst(column, layers),
    rmsBefore: rmsAgainst(herronLangway(site), layers),
    converged,
  };
};

const check = (layers: readonly FirnLayer[], names: readonly FirnParameter[]): void => {
  const where = 'fit of Herron & Langway 1980';
  if (names.length === 0 || new Set(names).size !== names.length)
    throw new QuantityError(
      where,
      `the parameters are ${names.join(', ') || 'none'}`,
      'one or more, each once',
    );
  if (names.includes('k1') && names.includes('accumulation'))
    throw new QuantityError(
      where,
      'k1 and accumulation are both to be fitted, but density holds only k1/sqrt(accumulation)',
      'one of the two',
    );
  if (layers.length <= names.length)
    throw new QuantityError(
      where,
      `${layers.length} layers for ${names.length} parameters`,
      `${names.length + 1} or more`,
    );
  layers.forEach(({ top, bottom, sd }, i) => {
    if (!(bottom > top && top >= 0))
      throw new QuantityError(
        where,
        `layer ${i + 1} is from ${top} m to ${bottom} m`,
        'from 0 m or deeper, downwards',
      );
    if (!(sd > 0)) throw new QuantityError(where, `the sd of layer ${i + 1} is ${sd} kg/m3`, 'above 0 kg/m3');
  });
};

const parameterOf = (site: FirnSite, name: FirnParameter): number => {
  switch (name) {
    case 'k0':
      return site.k0Factor ?? 1;
    case 'k1':
      return site.k1Factor ?? 1;
    default:
      return site[name];
  }
};

const keys = {
  k0: 'k0Factor',
  k1: 'k1Factor',
  surfaceDensity: 'surfaceDensity',
  accumulation: 'accumulation',
} as const;

/** The site with the logs of its parameters moved; null where the model has no such site. */
const moved = (site: FirnSite, names: readonly FirnParameter[], by: readonly number[]): FirnSite | null => {
  const next: FirnSite = {
    ...site,
    ...Object.fromEntries(names.map((name, k) => [keys[name], parameterOf(site, name) * Math.exp(by[k])])),
  };
  try {
    herronLangway(next);
    return next;
  } catch {
    return null;
  }
};

/** Normal equations in the logs of the parameters; slopes by central differences. */
const normalEquations = (
  at: FirnSite,
  now: readonly number[],
  names: readonly FirnParameter[],
  residuals: (site: FirnSite) => readonly number[],
  weights: readonly number[],
) => {
  const h = 1e-5;
  const columns = names.map((_, k) => {
    const by = (sign: number) => names.map((__, j) => (j === k ? sign * h : 0));
    const [up, down] = [moved(at, names, by(1)) ?? at, moved(at, names, by(-1)) ?? at];
    const [high, low] = [residuals(up), residuals(down)];
    return high.map((r, i) => (low[i] - r) / (2 * h));
  });
  const jacobian = now.map((_, i) => columns.map((column) => column[i]));
  const normal = names.map((_, r) =>
    names.map((__, c) => jacobian.reduce((sum, row, i) => sum + weights[i] * row[r] * row[c], 0)),
  );
  const pull = names.map((_, r) => jacobian.reduce((sum, row, i) => sum + weights[i] * row[r] * now[i], 0));
  return { normal, pull, jacobian };
};

const product = (matrix: readonly (readonly number[])[], x: readonly number[]): number[] =>
  matrix.map((row) => row.reduce((sum, value, k) => sum + value * x[k], 0));

const inverseOrRefuse = (matrix: readonly (readonly number[])[], names: readonly FirnParameter[]) => {
  const inverse = inverseOf(matrix);
  if (inverse === null)
    throw new QuantityError(
      'fit of Herron & Langway 1980',
      `the layers say nothing of ${names.length === 1 ? names[0] : `one of ${names.join(', ')}`}`,
      'layers above and below 550 kg/m3, or fewer parameters',
    );
  return inverse;
};
