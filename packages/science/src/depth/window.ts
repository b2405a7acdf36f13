import { adjust } from './adjust.ts';
import type { Chain } from './chain.ts';
import type { Net, Opening } from './net.ts';
import { copySite, makeSites, type Sites, startSite } from './sites.ts';

/** Runs on either side that are solved again when one place is looked at. */
export const REACH = 5;

/** What a free offset at one place would be, all other readings given. */
export interface Opened {
  readonly opening: Opening;
  readonly mean: number;
  readonly sd: number;
  /** log evidence with the offset free (prior N(0, 1 m)). */
  readonly logEvidence: number;
}

/**
 * A stretch of the net around run `centre`, with the rest standing in as a prior: of the globals, and of where the
 * stretch begins. What that prior owes to the stretch itself is counted twice, which is harmless for comparing what
 * happened at the centre: five runs away each hole bottom rests on its own counter readings.
 */
export const stretch = (chain: Chain, centre: number, reach: number): ((opening?: Opening) => Net) => {
  const { net } = chain;
  const low = Math.max(1, centre - reach);
  const high = Math.min(net.runs, centre + reach);
  const runs = high - low + 1;
  const base = net.globals;
  const at = low - 1;
  const [vbb, vbd, vdd] = chain.cov.subarray(3 * at, 3 * at + 3);
  const determinant = vbb * vdd - vbd * vbd;
  const firstPiece = net.first[low];
  const pieces = net.first[high + 1] - firstPiece;
  const cutRuns = (column: Float64Array) => {
    const out = new Float64Array(runs + 1);
    for (let r = 1; r <= runs; r++) out[r] = column[at + r];
    return out;
  };
  const cutParts = <T extends Float64Array | Int8Array>(column: T): T =>
    column.slice(2 * firstPiece, 2 * (firstPiece + pieces)) as T;

  const places: number[] = [];
  for (let r = low; r <= high; r++) places.push(r - 1);
  for (let r = low; r <= high; r++) places.push(net.runs + r - 1);
  const partSite = new Int32Array(2 * pieces).fill(-1);
  for (let part = 0; part < 2 * pieces; part++) {
    const site = net.partSite[2 * firstPiece + part];
    if (site < 0) continue;
    partSite[part] = places.length;
    places.push(site);
  }
  const first = new Int32Array(runs + 2);
  for (let r = 1; r <= runs + 1; r++) first[r] = net.first[at + r] - firstPiece;
  const precision = precisionOf(chain.factor, base);
  const globalPrecision = (k: number) => {
    const out = new Float64Array(k * k);
    for (let i = 0; i < base; i++) for (let j = 0; j < base; j++) out[i * k + j] = precision[i * base + j];
    for (let i = base; i < k; i++) out[i * k + i] = 1;
    return out;
  };
  const near = (opening: Opening): Opening => ({ kind: opening.kind, run: Math.max(1, opening.run - at) });
  const old = net.openings.map(near);
  const shared = {
    runs,
    pieces,
    from: cutRuns(net.from),
    to: cutRuns(net.to),
    sounding: cutRuns(net.sounding),
    soundingVariance: cutRuns(net.soundingVariance),
    first,
    partMean: cutParts(net.partMean),
    partVariance: cutParts(net.partVariance),
    partCoefficient: cutParts(net.partCoefficient),
    partGlobal: cutParts(net.partGlobal),
    partSite,
    startMean: [chain.core[at], chain.hole[at]] as const,
    startPrecision: [vdd / determinant, -vbd / determinant, vbb / determinant] as const,
    runBiasVariance: net.runBiasVariance,
    readingVariance: net.readingVariance,
    offsetVariance: net.offsetVariance,
  };
  return (opening) => {
    const globals = base + (opening === undefined ? 0 : 1);
    const globalMean = new Float64Array(globals);
    globalMean.set(chain.global);
    const sites = makeSites(places.length);
    places.forEach((place, i) => {
      copySite(net.sites, place, sites, i);
    });
    if (opening !== undefined) restart(sites, shared, near(opening).run);
    return {
      ...shared,
      sites,
      globals,
      globalMean,
      globalPrecision: globalPrecision(globals),
      openings: opening === undefined ? old : [...old, near(opening)],
    };
  };
};

/** What the sites next to a reading took on because of it they must not keep once it is free. */
const restart = (sites: Sites, net: Pick<Net, 'runs' | 'first' | 'partSite'>, run: number): void => {
  const again = (i: number) =>
    startSite(sites, i, sites.level[i], sites.mean[i], sites.rare[i], sites.rareMean[i]);
  for (let r = Math.max(1, run - 1); r <= Math.min(net.runs, run + 1); r++) {
    again(r - 1);
    again(net.runs + r - 1);
    for (let part = 2 * net.first[r]; part < 2 * net.first[r + 1]; part++)
      if (net.partSite[part] >= 0) again(net.partSite[part]);
  }
};

/** log evidence of the stretch as it is. */
export const evidenceOf = (build: (opening?: Opening) => Net): number => adjust(build(), SWEEPS).logEvidence;

const SWEEPS = 14;

/** The stretch with one offset free. */
export const open = (build: (opening?: Opening) => Net, opening: Opening): Opened => {
  const { chain, logEvidence } = adjust(build(opening), SWEEPS);
  const k = chain.net.globals;
  let variance = 0;
  for (let j = 0; j < k; j++) variance += chain.factor[(k - 1) * k + j] ** 2;
  return { opening, mean: chain.global[k - 1], sd: Math.sqrt(variance), logEvidence };
};

/** Inverse of F F', F lower triangular. */
const precisionOf = (factor: Float64Array, k: number): Float64Array => {
  const l = new Float64Array(k * k);
  for (let j = 0; j < k; j++) {
    l[j * k + j] = 1 / factor[j * k + j];
    for (let i = j + 1; i < k; i++) {
      let sum = 0;
      for (let m = j; m < i; m++) sum -= factor[i * k + m] * l[m * k + j];
      l[i * k + j] = sum / factor[i * k + i];
    }
  }
  const out = new Float64Array(k * k);
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++) {
      let sum = 0;
      for (let m = Math.max(i, j); m < k; m++) sum += l[m * k + i] * l[m * k + j];
      out[i * k + j] = sum;
    }
  return out;
};
