import {
  coverageFactor,
  fitLinear,
  fitNonlinear,
  fitStraightLine,
  lineBothVariables,
  propagate,
  propagateByDrawing,
  secondOrder,
} from '@firnbook/science/statistics';
import { linearSets, nonlinearSets } from '@firnbook/science/strd';
import type { Computed, Inputs, Section } from './evaluator.ts';

const numbers = (inputs: Inputs, name: string): readonly number[] => inputs[name] as readonly number[];
const number = (inputs: Inputs, name: string): number => inputs[name] as number;

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** Covariance of the means of two series of readings that were taken together. */
const ofMeans = (x: readonly number[], y: readonly number[]): number => {
  const [mx, my] = [mean(x), mean(y)];
  return x.reduce((sum, value, i) => sum + (value - mx) * (y[i] - my), 0) / (x.length * (x.length - 1));
};

/** Voltage, current and phase, read together five times: resistance, reactance, impedance (JCGM 100:2008, H.2). */
const impedance = (inputs: Inputs): Computed => {
  const series = ['V', 'I_A', 'phi'].map((name) => numbers(inputs, name));
  const sd = series.map((values) => Math.sqrt(ofMeans(values, values)));
  const correlation = series.map((a, i) =>
    series.map((b, j) => (i === j ? 1 : ofMeans(a, b) / (sd[i] * sd[j]))),
  );
  const {
    values,
    sd: u,
    correlation: r,
  } = propagate(
    ([v, i, phi]) => [(v / i) * Math.cos(phi), (v / i) * Math.sin(phi), v / i],
    series.map((readings, k) => ({ value: mean(readings), sd: sd[k] })),
    correlation,
  );
  return {
    R: [values[0], u[0]],
    X: [values[1], u[1]],
    Z: [values[2], u[2]],
    r_RX: r[0][1],
    r_RZ: r[0][2],
    r_XZ: r[1][2],
  };
};

/** End gauge against a standard (JCGM 100:2008, H.1), in nm. */
const endGauge = (inputs: Inputs): Computed => {
  const u = inputs.u as Readonly<Record<string, number>>;
  const dof = inputs.dof as Readonly<Record<string, number>>;
  const gauge = ([ls, d, alpha, theta, dAlpha, dTheta]: readonly number[]) =>
    ls + d - ls * (dAlpha * theta + alpha * dTheta);
  const quantities = [
    ['ls', number(inputs, 'ls_mm') * 1e6],
    ['d', number(inputs, 'd_nm')],
    ['alpha_s', number(inputs, 'alpha_s')],
    ['theta', number(inputs, 'theta')],
    ['dalpha', 0],
    ['dtheta', 0],
  ] as const;
  const given = quantities.map(([name, value]) => {
    const degrees = dof[name];
    return { value, sd: u[name], ...(degrees === undefined ? {} : { degrees }) };
  });
  const { values, sd, degrees } = propagate((x) => [gauge(x)], given);
  const effective = degrees[0] ?? Number.POSITIVE_INFINITY;
  const k99 = coverageFactor(0.99, effective);
  return {
    l_mm: values[0] / 1e6,
    uc_nm: sd[0],
    nu_eff: Math.floor(effective),
    k99,
    U99_nm: k99 * sd[0],
    uc_with_second_order_nm: secondOrder(gauge, given).sd,
  };
};

const thermometer = (inputs: Inputs): Computed => {
  const line = fitStraightLine(numbers(inputs, 't'), numbers(inputs, 'b'), { origin: number(inputs, 't0') });
  const at30 = line.at(30);
  return {
    y1: line.intercept,
    u1: line.sd[0],
    y2: line.slope,
    u2: line.sd[1],
    r: line.correlation,
    s: line.scatter,
    b30: at30.value,
    u30: at30.sd,
    ssr: line.chiSquare,
  };
};

/** Sum of four quantities of standard uncertainty 1; what they are is said in the entry's words. */
const sumOfFour = (inputs: Inputs): Computed => {
  const half = Math.sqrt(3);
  const one = String(inputs.model).includes('rectangular')
    ? ({ kind: 'rectangular', low: -half, high: half } as const)
    : ({ kind: 'normal', mean: 0, sd: 1 } as const);
  const drawn = propagateByDrawing(([a, b, c, d]) => a + b + c + d, [one, one, one, one], {
    seed: 1,
    trials: 4_000_000,
  });
  return { u: drawn.sd, hi95: drawn.high };
};

/** The entry names the file of the data; the data themselves are a copy in the science room. */
const nameOf = (inputs: Inputs): string => String(inputs.file).replace(/^.*\/|\.[a-z]+$/g, '');

const linear = (inputs: Inputs): Computed => {
  const set = linearSets.find(({ name }) => name === nameOf(inputs));
  if (set === undefined) throw new Error(`no data for ${inputs.file}`);
  const { degree } = set;
  const rows = set.x.map((row) =>
    degree === null ? [1, ...row] : Array.from({ length: degree + 1 }, (_, k) => row[0] ** k),
  );
  const fit = fitLinear(rows, set.y);
  return { b: fit.coefficients, se: fit.sd, ssr: fit.chiSquare };
};

/** From both starts, which have to end at the same parameters. */
const nonlinear = (inputs: Inputs): Computed => {
  const set = nonlinearSets.find(({ name }) => name === nameOf(inputs));
  if (set === undefined) throw new Error(`no data for ${inputs.file}`);
  const [first, second] = ['start1', 'start2'].map((start) =>
    fitNonlinear(set.curve, set.x, set.y, numbers(inputs, start)),
  );
  const apart = Math.max(...first.coefficients.map((b, k) => Math.abs(b / second.coefficients[k] - 1)));
  if (apart > 1e-6) throw new Error(`the two starts end ${apart} apart`);
  return { b: first.coefficients, se: first.sd, rss: first.chiSquare };
};

const weighted = (inputs: Inputs): Computed => {
  const fit = (covariance: 'absolute' | 'scaled') =>
    fitStraightLine(numbers(inputs, 'x'), numbers(inputs, 'y'), { sd: numbers(inputs, 'sigma'), covariance });
  const absolute = fit('absolute');
  return {
    b0: absolute.intercept,
    b1: absolute.slope,
    chi2: absolute.chiSquare,
    se_abs: absolute.sd,
    se_scaled: fit('scaled').sd,
    cov_abs: absolute.covariance[0][1],
  };
};

const york = (inputs: Inputs): Computed => {
  const sd = (name: string) => numbers(inputs, name).map((weight) => 1 / Math.sqrt(weight));
  const line = lineBothVariables(numbers(inputs, 'x'), numbers(inputs, 'y'), sd('wx'), sd('wy'));
  return {
    a: line.intercept,
    b: line.slope,
    sa: line.interceptSd,
    sb: line.slopeSd,
    S: line.chiSquare,
    S_over_dof: line.chiSquare / line.degrees,
  };
};

export const section: Section = {
  section: '08_uncertainty',
  evaluators: [
    { ids: /^GUM\.H1$/, compute: endGauge },
    { ids: /^GUM\.H2$/, compute: impedance },
    { ids: /^GUM\.H3$/, compute: thermometer },
    { ids: /^JCGM101\.9\.2\./, compute: sumOfFour },
    { ids: /^StRD\.(Norris|Pontius|Longley|Wampler1|Filip)$/, compute: linear },
    { ids: /^StRD\.(Misra1a|Thurber|Hahn1|Rat43|DanWood|BoxBOD|Eckerle4|MGH09|Gauss1)$/, compute: nonlinear },
    { ids: /^WLS\./, compute: weighted },
    { ids: /^York\./, compute: york },
  ],
  not: [],
};
