import { emptyTilted, tilt, tiltTwin } from './one-sided.ts';

/**
 * The Gaussian stand-ins ("sites") of expectation propagation, one per one-sided quantity q, two-dimensional where
 * the log l of its mean is learned:
 *   exp(-p q^2/2 - c q l - w l^2/2 + g q + h l)
 * which for the chain reads q = a + b l + N(0, v) and, on l alone, exp(-rest l^2/2 + push l).
 * T. Minka 2001, "Expectation propagation for approximate Bayesian inference", UAI.
 */
export interface Sites {
  readonly count: number;
  readonly p: Float64Array;
  readonly c: Float64Array;
  readonly w: Float64Array;
  readonly g: Float64Array;
  readonly h: Float64Array;
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly v: Float64Array;
  readonly rest: Float64Array;
  readonly push: Float64Array;
  /** Column of l among the globals, -1 where the mean is given. */
  readonly level: Int8Array;
  /** First guess of the mean, m; l counts from its log. */
  readonly mean: Float64Array;
  readonly rare: Float64Array;
  readonly rareMean: Float64Array;
  /** Where above 0 the quantity is one of two, `mean` or `rareMean`, give or take this variance. */
  readonly twin: Float64Array;
  /** Share of the way that the site moves, and what it last had to go: two that compete would swing for ever. */
  readonly stride: Float64Array;
  readonly last: Float64Array;
  /** What all else says of q: mean and variance without the site. */
  readonly seen: Float64Array;
  readonly seenVariance: Float64Array;
  readonly seenLevel: Float64Array;
  /** Mean of q that the site last led to. */
  readonly led: Float64Array;
  /** Variance of q that comes through the globals, as the last sweep with all unknowns free saw it. */
  readonly lent: Float64Array;
  /** Mass of the term at the last look, exp(shape) x scaled: its part in the evidence, less that of its stand-in. */
  readonly shape: Float64Array;
  readonly scaled: Float64Array;
}

export const makeSites = (count: number): Sites => {
  const column = () => new Float64Array(count);
  return {
    count,
    p: column(),
    c: column(),
    w: column(),
    g: column(),
    h: column(),
    a: column(),
    b: column(),
    v: column(),
    rest: column(),
    push: column(),
    level: new Int8Array(count).fill(-1),
    mean: column(),
    rare: column(),
    rareMean: column(),
    twin: column(),
    stride: column().fill(LONG),
    last: column(),
    seen: column(),
    seenVariance: column().fill(Number.POSITIVE_INFINITY),
    seenLevel: column(),
    led: column(),
    lent: column(),
    shape: column(),
    scaled: column().fill(1),
  };
};

/** Copies site `from`, with what it has seen and how far it strides, to site `to`. */
export const copySite = (old: Sites, from: number, s: Sites, to: number): void => {
  s.level[to] = old.level[from];
  s.mean[to] = old.mean[from];
  s.rare[to] = old.rare[from];
  s.rareMean[to] = old.rareMean[from];
  s.twin[to] = old.twin[from];
  s.p[to] = old.p[from];
  s.c[to] = old.c[from];
  s.w[to] = old.w[from];
  s.g[to] = old.g[from];
  s.h[to] = old.h[from];
  s.seen[to] = old.seen[from];
  s.seenVariance[to] = old.seenVariance[from];
  s.seenLevel[to] = old.seenLevel[from];
  s.led[to] = old.led[from];
  s.lent[to] = old.lent[from];
  s.stride[to] = Math.max(REFRESHED, old.stride[from]);
  conditionSite(s, to);
};
/** A site that swung in the last round may try longer strides in the next. */
const REFRESHED = 0.5;

export const refreshStride = (s: Sites, i: number): void => {
  s.stride[i] = Math.max(REFRESHED, s.stride[i]);
};

export const coolSite = (s: Sites, i: number): void => {
  s.stride[i] = Math.max(COLD, COOLER * s.stride[i]);
};
const COOLER = 0.6;
const COLD = 0.03;

/** Sets site i to the quantity's own prior at the first guess of its mean: what the chain assumes at the start. */
export const startSite = (
  s: Sites,
  i: number,
  level: number,
  mean: number,
  rare: number,
  rareMean: number,
): void => {
  s.level[i] = level;
  s.mean[i] = mean;
  s.rare[i] = rare;
  s.rareMean[i] = rareMean;
  s.twin[i] = 0;
  forget(s, i);
  const expected = (1 - rare) * mean + rare * rareMean;
  const v = (1 - rare) * 2 * mean * mean + rare * 2 * rareMean * rareMean - expected * expected;
  const slope = level < 0 ? 0 : (1 - rare) * mean;
  s.p[i] = 1 / v;
  s.c[i] = -slope / v;
  s.w[i] = (slope * slope) / v;
  s.g[i] = expected / v;
  s.h[i] = (-slope * expected) / v;
  conditionSite(s, i);
};

/** Sets site i to a quantity that is one of two readings with the same variance. */
export const startTwin = (s: Sites, i: number, one: number, two: number, variance: number): void => {
  s.level[i] = -1;
  s.mean[i] = one;
  s.rare[i] = 0;
  s.rareMean[i] = two;
  s.twin[i] = variance;
  forget(s, i);
  s.p[i] = 1 / (variance + ((one - two) / 2) ** 2);
  s.c[i] = s.w[i] = s.h[i] = 0;
  s.g[i] = (s.p[i] * (one + two)) / 2;
  conditionSite(s, i);
};

/** A site that begins anew has seen nothing. */
const forget = (s: Sites, i: number): void => {
  s.seenVariance[i] = Number.POSITIVE_INFINITY;
  s.stride[i] = LONG;
  s.last[i] = 0;
};
const LONG = 0.9;

const conditionSite = (s: Sites, i: number): void => {
  const v = 1 / s.p[i];
  s.v[i] = v;
  s.a[i] = s.g[i] * v;
  s.b[i] = -s.c[i] * v;
  s.rest[i] = s.w[i] - s.c[i] * s.c[i] * v;
  s.push[i] = s.h[i] - s.g[i] * s.c[i] * v;
};

/**
 * Takes from every site what it claims beyond a normal distribution of its own (c^2 > p w), about the point where it
 * was made. Needed only where a bad start made sites that together are none.
 */
export const calmSites = (s: Sites): void => {
  for (let i = 0; i < s.count; i++) {
    if (s.level[i] < 0) continue;
    const most = CALM * Math.sqrt(Math.max(0, s.p[i] * s.w[i]));
    if (Math.abs(s.c[i]) <= most) continue;
    const less = Math.sign(s.c[i]) * most - s.c[i];
    s.c[i] += less;
    s.g[i] += less * s.seenLevel[i];
    s.h[i] += less * s.led[i];
    s.seenVariance[i] = Number.POSITIVE_INFINITY;
    conditionSite(s, i);
  }
};
const CALM = 0.95;

/** Numbers handed over one by one would each be put in a box. */
export const question = new Float64Array(3);
const asked = new Float64Array(5);

const tilted = emptyTilted();
/**
 * Smallest precision of a site, in 1/mean^2. A gap is eliminated through its site and needs some; a stub or a fill
 * has readings of its own and needs none, but less than none (where the wide component takes over) is not taken.
 */
const LEAST_OF_PART = 0.02;
const LEAST = 0.01;
/** Changes below this share of a standard deviation are not worth the error function; less where evidence hangs on it. */
const NEWS = 1e-2;
const NEWS_OF_EVIDENCE = 5e-3;
const SHORTEST = 0.1;

/**
 * Moves site i towards what its one-sided term says, given the present marginal of q.
 *
 * In q the stand-in matches mean and variance (expectation propagation). In l it matches slope and bend of the
 * term's log mass at the present estimate of l, and the change of q's mean with l, so that what is learned about the
 * mean and what its uncertainty does to depths both pass through the chain.
 *
 * What is asked stands in `question`: mean and variance of q given l, metres and metres squared, and the present
 * estimate of l less the log of the first guess (not used where the mean is given).
 *
 * @param isPart the quantity is a part of a run's way, see LEAST_OF_PART
 * @param wanted whether its part in the evidence is asked for
 * @returns log of the term's mass less that of its stand-in (its part in the evidence); 0 where it was left alone
 */
export const updateSite = (s: Sites, i: number, isPart: boolean, wanted: boolean): number => {
  const mean = question[0];
  const variance = question[1];
  const level = question[2];
  const learned = s.level[i] >= 0;
  const l = learned ? level : 0;
  const precision = 1 / variance;
  const left = precision - s.p[i];
  if (!(left > 1e-7 * precision)) return 0;
  const pull = mean * precision - (s.g[i] - s.c[i] * l);
  const centre = pull / left;
  // nothing new is seen: the stand-in stands
  const news = Math.abs(centre - s.seen[i]) * Math.sqrt(left) + Math.abs(s.seenVariance[i] * left - 1);
  if (news + Math.abs(l - s.seenLevel[i]) < (wanted ? NEWS_OF_EVIDENCE : NEWS)) {
    if (!wanted) return 0;
    // the term's mass is that of its last look; the stand-in may have moved since, and counts as it is now
    return (
      s.shape[i] +
      Math.log(s.scaled[i] / Math.sqrt(variance * left)) -
      0.5 * (mean * mean * precision - centre * pull) -
      l * (s.h[i] - 0.5 * s.w[i] * l)
    );
  }
  s.seen[i] = centre;
  s.seenVariance[i] = 1 / left;
  s.seenLevel[i] = l;
  const usual = l === 0 ? s.mean[i] : s.mean[i] * Math.exp(l);
  const twin = s.twin[i];
  if (twin > 0) tiltTwin(centre, 1 / left, s.mean[i], s.rareMean[i], twin, tilted);
  else {
    asked[0] = centre;
    asked[1] = 1 / left;
    asked[2] = usual;
    asked[3] = s.rare[i];
    asked[4] = s.rareMean[i];
    tilt(asked, tilted);
  }
  const evidence = !wanted
    ? 0
    : tilted.shape +
      Math.log(tilted.scaled / Math.sqrt(variance * left)) -
      0.5 * (mean * mean * precision - centre * pull) -
      l * (s.h[i] - 0.5 * s.w[i] * l);
  s.shape[i] = tilted.shape;
  s.scaled[i] = tilted.scaled;
  s.led[i] = tilted.mean;
  const least = (isPart ? LEAST_OF_PART : LEAST) / (s.mean[i] * s.mean[i]);
  const p = Math.max(least, 1 / tilted.variance - left);
  const total = left + p;
  const c = learned ? -tilted.meanSlope * total : 0;
  const w = learned ? (c * c) / total - Math.min(0, tilted.bend) : 0;
  const g = total * tilted.mean - pull + c * l;
  const h = learned ? tilted.slope + c * tilted.mean + w * l : 0;
  const way = tilted.mean - mean;
  if (way * s.last[i] < 0 && s.stride[i] > SHORTEST) s.stride[i] = Math.max(SHORTEST, s.stride[i] * 0.7);
  s.last[i] = way;
  const step = s.stride[i];
  s.p[i] += step * (p - s.p[i]);
  s.c[i] += step * (c - s.c[i]);
  s.w[i] += step * (w - s.w[i]);
  s.g[i] += step * (g - s.g[i]);
  s.h[i] += step * (h - s.h[i]);
  conditionSite(s, i);
  return evidence;
};
