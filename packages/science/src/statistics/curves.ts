import type { Curve } from './nonlinear-fit.ts';

/** b1 (1 - exp(-b2 x)): what grows towards an end. */
export const saturating: Curve = {
  value: ([a, k], x) => -a * Math.expm1(-k * x),
  slopes: ([a, k], x, out) => {
    out[0] = -Math.expm1(-k * x);
    out[1] = a * x * Math.exp(-k * x);
  },
};

/** Cubic over cubic. */
export const cubicRatio: Curve = {
  value: ([a, b, c, d, e, f, g], x) => (a + x * (b + x * (c + x * d))) / (1 + x * (e + x * (f + x * g))),
  slopes: ([a, b, c, d, e, f, g], x, out) => {
    const below = 1 + x * (e + x * (f + x * g));
    const value = (a + x * (b + x * (c + x * d))) / below;
    for (let k = 0; k < 4; k++) out[k] = x ** k / below;
    for (let k = 1; k < 4; k++) out[3 + k] = (-value * x ** k) / below;
  },
};

/** b1/(1 + exp(b2 - b3 x))^(1/b4): growth that is not symmetric. */
export const richards: Curve = {
  value: ([a, b, c, d], x) => a / (1 + Math.exp(b - c * x)) ** (1 / d),
  slopes: ([a, b, c, d], x, out) => {
    const e = Math.exp(b - c * x);
    const base = (1 + e) ** (-1 / d);
    const by = (-a * base * e) / (d * (1 + e));
    out[0] = base;
    out[1] = by;
    out[2] = -x * by;
    out[3] = (a * base * Math.log1p(e)) / d ** 2;
  },
};

/** b1 x^b2. */
export const power: Curve = {
  value: ([a, b], x) => a * x ** b,
  slopes: ([a, b], x, out) => {
    out[0] = x ** b;
    out[1] = a * x ** b * Math.log(x);
  },
};

/** (b1/b2) exp(-((x - b3)/b2)^2/2): a line of a spectrum. */
export const peak: Curve = {
  value: ([a, w, c], x) => (a / w) * Math.exp(-0.5 * ((x - c) / w) ** 2),
  slopes: ([a, w, c], x, out) => {
    const z = (x - c) / w;
    const e = Math.exp(-0.5 * z * z) / w;
    out[0] = e;
    out[1] = (a * e * (z * z - 1)) / w;
    out[2] = (a * e * z) / w;
  },
};

/** b1 (x^2 + b2 x)/(x^2 + b3 x + b4). */
export const quadraticRatio: Curve = {
  value: ([a, b, c, d], x) => (a * x * (x + b)) / (x * x + c * x + d),
  slopes: ([a, b, c, d], x, out) => {
    const below = x * x + c * x + d;
    const share = (x * (x + b)) / below;
    out[0] = share;
    out[1] = (a * x) / below;
    out[2] = (-a * share * x) / below;
    out[3] = (-a * share) / below;
  },
};

/** Two bells on a falling ground. */
export const twoBells: Curve = {
  value: ([a, k, p, m, s, q, n, t], x) =>
    a * Math.exp(-k * x) + p * Math.exp(-(((x - m) / s) ** 2)) + q * Math.exp(-(((x - n) / t) ** 2)),
  slopes: ([a, k, p, m, s, q, n, t], x, out) => {
    out[0] = Math.exp(-k * x);
    out[1] = -a * x * out[0];
    [
      [p, m, s],
      [q, n, t],
    ].forEach(([height, centre, width], bell) => {
      const z = (x - centre) / width;
      const e = Math.exp(-z * z);
      out[2 + 3 * bell] = e;
      out[3 + 3 * bell] = (2 * height * e * z) / width;
      out[4 + 3 * bell] = (2 * height * e * z * z) / width;
    });
  },
};

/** Curves that a person can ask for by name, and how many parameters each has. */
export const namedCurves = {
  saturating: { curve: saturating, parameters: 2 },
  power: { curve: power, parameters: 2 },
  peak: { curve: peak, parameters: 3 },
  richards: { curve: richards, parameters: 4 },
} as const;
