import { emptyTilted, logMass, tilt } from './one-sided.ts';

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
  /** Share of the way that the site moves, and what it last had to go: two that compete would swing for ever. */
  readonly stride: Float64Array;
  readonly last: Float64Array;
  /** What all else says of q: mean and variance without the site. */
  readonly seen: Float64Array;
  readonly seenVariance: Float64Array;
  readonly seenLevel: Float64Array;
  /** Mean of q that the site last led to. */
  readonly led: Float64Array;
  /** Its part in the evidence. */
  readonly evidence: Float64Array;
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
    stride: column().fill(0.9),
    last: column(),
    seen: column(),
    seenVariance: column().fill(Number.POSITIVE_INFINITY),
    seenLevel: column(),
    led: column(),
    evidence: column(),
  };
};

/** Copies site `from`, with what it has seen and how far it strides, to site `to`. */
export const copySite = (old: Sites, from: number, s: Sites, to: number): void => {
  s.level[to] = old.level[from];
  s.mean[to] = old.mean[from];
  s.rare[to] = old.rare[from];
  s.rareMean[to] = old.rareMean[from];
  s.p[to] = old.p[from];
  s.c[to] = old.c[from];
  s.w[to] = old.w[from];
  s.g[to] = old.g[from];
  s.h[to] = old.h[from];
  s.seen[to] = old.seen[from];
  s.seenVariance[to] = old.seenVariance[from];
  s.seenLevel[to] = old.seenLevel[from];
  s.led[to] = old.led[from];
  s.stride[to] = Math.max(REFRESHED, old.stride[from]);
  conditionSite(s, to);
};
/** A site that swung in the last round may try longer strides in the next. */
const REFRESHED = 0.5;

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

const tilted = emptyTilted();
/**
 * Smallest precision of a site, in 1/mean^2. A gap is eliminated through its site and needs some; a stub or a fill
 * has readings of its own and needs none, but less than none (where the wide component takes over) is not taken.
 */
const LEAST_OF_PART = 0.02;
const LEAST = 0.01;
/** Changes below this share of a standard deviation are not worth the error function. */
const NEWS = 5e-3;
const SHORTEST = 0.1;

/**
 * Moves site i towards what its one-sided term says, given the present marginal of q.
 *
 * In q the stand-in matches mean and variance (expectation propagation). In l it matches slope and bend of the
 * term's log mass at the present estimate of l, and the change of q's mean with l, so that what is learned about the
 * mean and what its uncertainty does to depths both pass through the chain.
 *
 * @param mean, variance of q given l, metres and metres squared
 * @param level present estimate of l less the log of the first guess; not used where the mean is given
 * @param isPart the quantity is a part of a run's way, see LEAST_OF_PART
 * @param wanted whether its part in the evidence is asked for
 * @returns log of the term's mass less that of its stand-in (its part in the evidence); 0 where it was left alone
 */
export const updateSite = (
  s: Sites,
  i: number,
  mean: number,
  variance: number,
  level: number,
  isPart: boolean,
  wanted: boolean,
): number => {
  const learned = s.level[i] >= 0;
  const l = learned ? level : 0;
  const precision = 1 / variance;
  const left = precision - s.p[i];
  if (!(left > 1e-7 * precision)) return 0;
  const pull = mean * precision - (s.g[i] - s.c[i] * l);
  const centre = pull / left;
  // nothing new is seen: the stand-in stands
  const news = Math.abs(centre - s.seen[i]) * Math.sqrt(left) + Math.abs(s.seenVariance[i] * left - 1);
  if (news + Math.abs(l - s.seenLevel[i]) < NEWS) return s.evidence[i];
  s.seen[i] = centre;
  s.seenVariance[i] = 1 / left;
  s.seenLevel[i] = l;
  const usual = l === 0 ? s.mean[i] : s.mean[i] * Math.exp(l);
  tilt(centre, 1 / left, usual, s.rare[i], s.rareMean[i], tilted);
  const evidence = !wanted
    ? 0
    : logMass(tilted) -
      0.5 * (mean * mean * precision - centre * pull + Math.log(variance * left)) -
      l * (s.h[i] - 0.5 * s.w[i] * l);
  s.evidence[i] = evidence;
  s.led[i] = tilted.mean;
  const least = (isPart ? LEAST_OF_PART : LEAST) / (s.mean[i] * s.mean[i]);
  const p = Math.max(least, 1 / tilted.variance - left);
  const total = left + p;
  const c = learned ? -tilted.meanSlope * total : 0;
  const w = learned ? (c * c) / total - Math.min(0, tilted.bend) : 0;
  const g = total * tilted.mean - pull + c * l;
  const h = learned ? tilted.slope + c * tilted.mean + w * l : 0;
  const way = tilted.mean - mean;
  if (way * s.last[i] < 0) s.stride[i] = Math.max(SHORTEST, s.stride[i] * 0.7);
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
