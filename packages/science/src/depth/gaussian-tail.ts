/**
 * Tails of the normal distribution, without cancellation.
 *
 * Source: W. J. Cody 1969, "Rational Chebyshev approximations for the error function", Math. Comp. 23, 631-637
 * (coefficients of the author's published routine, from memory; the test checks them to 1e-14 against values
 * computed with 40 digits).
 */
const SQRT_HALF = Math.SQRT1_2;
const INVERSE_SQRT_PI = 0.5641895835477563;
const SQRT_TWO_OVER_PI = 0.7978845608028654;
const INVERSE_SQRT_TWO_PI = 0.3989422804014327;

const smallRange = (x: number): number => {
  const y = x * x;
  let p = 0.18577770618460315 * y;
  let q = y;
  p = (p + 3.1611237438705655) * y;
  q = (q + 23.601290952344122) * y;
  p = (p + 113.86415415105016) * y;
  q = (q + 244.02463793444417) * y;
  p = (p + 377.485237685302) * y;
  q = (q + 1282.6165260773723) * y;
  return (x * (p + 3209.3775891384694)) / (q + 2844.236833439171);
};

const middleRange = (y: number): number => {
  let p = 2.1531153547440383e-8 * y;
  let q = y;
  p = (p + 0.5641884969886701) * y;
  q = (q + 15.744926110709835) * y;
  p = (p + 8.883149794388377) * y;
  q = (q + 117.6939508913125) * y;
  p = (p + 66.11919063714163) * y;
  q = (q + 537.1811018620099) * y;
  p = (p + 298.6351381974001) * y;
  q = (q + 1621.3895745666903) * y;
  p = (p + 881.952221241769) * y;
  q = (q + 3290.7992357334597) * y;
  p = (p + 1712.0476126340707) * y;
  q = (q + 4362.619090143247) * y;
  p = (p + 2051.0783778260716) * y;
  q = (q + 3439.3676741437216) * y;
  return (p + 1230.3393547979972) / (q + 1230.3393548037495);
};

const largeRange = (y: number): number => {
  const z = 1 / (y * y);
  let p = 0.016315387137302097 * z;
  let q = z;
  p = (p + 0.30532663496123236) * z;
  q = (q + 2.568520192289822) * z;
  p = (p + 0.36034489994980445) * z;
  q = (q + 1.8729528499234673) * z;
  p = (p + 0.12578172611122926) * z;
  q = (q + 0.5279051029514285) * z;
  p = (p + 0.016083785148742275) * z;
  q = (q + 0.06051834131244132) * z;
  return (INVERSE_SQRT_PI - (z * (p + 0.0006587491615298378)) / (q + 0.0023352049762686918)) / y;
};

/** exp(x^2) erfc(x); overflows to Infinity below about -26. */
export const scaledErfc = (x: number): number => {
  if (x < 0) return 2 * Math.exp(x * x) - scaledErfc(-x);
  if (x <= 0.46875) return Math.exp(x * x) * (1 - smallRange(x));
  return x <= 4 ? middleRange(x) : largeRange(x);
};

/** Moments of a standard normal cut off below -z, that is of x > -z: reused so that nothing is allocated. */
export interface CutNormal {
  /** Phi(z) exp(z^2/2) for z < 0, Phi(z) otherwise: no logarithm where nobody asks for one. */
  tail: number;
  /** z + phi(z)/Phi(z): mean of x + z. */
  lift: number;
  /** Variance of x. */
  spread: number;
}

export const cutNormal = (z: number, out: CutNormal): void => {
  if (z < 0) {
    const e = scaledErfc(-z * SQRT_HALF);
    out.tail = 0.5 * e;
    if (z < -25) {
      const x = 1 / (z * z);
      out.lift = (1 - x * (2 - x * (10 - 74 * x))) / -z;
      out.spread = x * (1 - x * (6 - x * (50 - 518 * x)));
    } else {
      const hazard = SQRT_TWO_OVER_PI / e;
      out.lift = z + hazard;
      out.spread = 1 - hazard * out.lift;
    }
  } else {
    const gauss = Math.exp(-0.5 * z * z);
    const phi = 1 - 0.5 * gauss * scaledErfc(z * SQRT_HALF);
    const hazard = (0.5 * SQRT_TWO_OVER_PI * gauss) / phi;
    out.tail = phi;
    out.lift = z + hazard;
    out.spread = 1 - hazard * out.lift;
  }
};

/** Below and above the table the exact functions, and nothing cut off. */
const FIRST = -25;
const LAST = 7;
const PER_UNIT = 64;
const NODES = (LAST - FIRST) * PER_UNIT + 1;

/** Node by node: hazard phi/Phi and its slope, Phi (scaled as `CutNormal.tail`) and its slope; each slope times the step. */
const table = (() => {
  const out = new Float64Array(4 * (NODES + 1));
  const cut: CutNormal = { tail: 0, lift: 0, spread: 0 };
  for (let i = 0; i <= NODES; i++) {
    const z = FIRST + i / PER_UNIT;
    cutNormal(z, cut);
    const hazard = cut.lift - z;
    out[4 * i] = hazard;
    out[4 * i + 1] = (-hazard * cut.lift) / PER_UNIT;
    // Phi, whatever the sign: its slope is phi
    const phi = Math.exp(-0.5 * z * z) * INVERSE_SQRT_TWO_PI;
    out[4 * i + 2] = z < 0 ? cut.tail * Math.exp(-0.5 * z * z) : cut.tail;
    out[4 * i + 3] = phi / PER_UNIT;
  }
  return out;
})();

/**
 * As `cutNormal`, from a table with cubics in between: absolute errors below 2e-10, relative ones of `tail` too. A few
 * times as fast, and asked some hundred thousand times a hole.
 */
export const cutQuickly = (z: number, out: CutNormal): void => {
  if (z >= LAST) {
    out.tail = 1;
    out.lift = z;
    out.spread = 1;
    return;
  }
  if (!(z > FIRST)) {
    cutNormal(z, out);
    return;
  }
  const x = (z - FIRST) * PER_UNIT;
  const i = Math.floor(x);
  const t = x - i;
  const at = 4 * i;
  // Hermite: values and slopes at both ends
  const u = 1 - t;
  const a = u * u * (1 + 2 * t);
  const b = t * u * u;
  const c = t * t * (3 - 2 * t);
  const d = -t * t * u;
  const hazard = a * table[at] + b * table[at + 1] + c * table[at + 4] + d * table[at + 5];
  out.tail =
    z < 0
      ? INVERSE_SQRT_TWO_PI / hazard
      : a * table[at + 2] + b * table[at + 3] + c * table[at + 6] + d * table[at + 7];
  out.lift = z + hazard;
  out.spread = 1 - hazard * out.lift;
};
