import type { Metres } from '../units.ts';
import { DepthScaleError, type ScaledDepth, scaleName } from './depth.ts';
import { lastAtMost } from './piecewise.ts';
import type { Place, ScaleOfHole } from './scales.ts';

/** What lies at a depth. */
export type Within =
  | { readonly kind: 'ice'; readonly piece: string }
  /** On a break that has no width on the scale it was given on: it may be anywhere in the gap between two pieces. */
  | { readonly kind: 'break'; readonly above: string; readonly below: string }
  /** Between two pieces: ice that was not recovered. */
  | { readonly kind: 'lost ice'; readonly above: string; readonly below: string }
  | { readonly kind: 'above the core' }
  | { readonly kind: 'below the core' };

export interface Converted {
  readonly depth: ScaledDepth;
  readonly within: Within;
  /** Depths between which it lies for certain, as far as the places go: narrow in ice, the gap in lost ice. */
  readonly from: Metres;
  readonly to: Metres;
}

/** A way from one scale to another. */
export type Conversion = (depth: ScaledDepth) => Converted;

/**
 * Conversion between two scales of a hole: linear between the ends of pieces, never decreasing. Above and below the
 * core it goes on with slope 1 and says so.
 *
 * The standard deviation of the given depth is that of the mark on the ice (a place in the core is exact); it is
 * carried along with the slope, and where the other scale is a solved one, the doubt of that scale is added. For a
 * place in the hole rather than in the core (a thermometer, a camera) give the scale's doubt with the depth.
 *
 * @throws DepthScaleError for scales of two holes, or without two places in common, or a depth of another scale
 */
export const conversion = (from: ScaleOfHole, to: ScaleOfHole): Conversion => {
  const names = [scaleName(from.scale), scaleName(to.scale)] as const;
  if (from.hole !== to.hole)
    throw new DepthScaleError(
      `"${names[0]}" is a scale of hole ${from.hole} and "${names[1]}" one of ${to.hole}: join the holes by a splice.`,
    );
  const { xs, ys, sds, places } = common(from, to);
  if (xs.length < 2)
    throw new DepthScaleError(
      `The scales "${names[0]}" and "${names[1]}" of hole ${from.hole} have no piece in common: tie them to the same pieces.`,
    );
  return (given) => {
    if (given.hole !== from.hole || scaleName(given.scale) !== names[0])
      throw new DepthScaleError(
        `A depth on "${scaleName(given.scale)}" of ${given.hole} is not one on "${names[0]}" of ${from.hole}: take the conversion of its scale.`,
      );
    if (!Number.isFinite(given.value) || !(given.sd >= 0))
      throw new DepthScaleError('The depth to be converted, or its standard deviation, is not a number.');
    const found = locate(given.value, xs, ys, sds, places);
    const sd = Math.hypot(found.slope * given.sd, found.sd, found.spread);
    return {
      depth: { hole: to.hole, scale: to.scale, value: found.value, sd },
      within: found.within,
      from: found.low,
      to: found.high,
    };
  };
};

/** Places that both scales reach. */
const common = (from: ScaleOfHole, to: ScaleOfHole) => {
  const other = new Map(to.places.map((place, j) => [`${place.end} ${place.piece}`, j]));
  const xs: number[] = [];
  const ys: number[] = [];
  const sds: number[] = [];
  const places: Place[] = [];
  from.places.forEach((place, i) => {
    const x = from.at[i];
    const j = other.get(`${place.end} ${place.piece}`);
    const y = j === undefined ? null : to.at[j];
    // pieces that changed their order between two versions have no common place
    if (x === null || y === null || y < (ys.at(-1) ?? y)) return;
    xs.push(x);
    ys.push(y);
    sds.push(to.sd === null ? 0 : to.sd[j as number]);
    places.push(place);
  });
  return { xs, ys, sds, places };
};

interface Located {
  readonly value: Metres;
  readonly slope: number;
  readonly sd: Metres;
  /** Of a break that has a width on one scale only. */
  readonly spread: Metres;
  readonly low: Metres;
  readonly high: Metres;
  readonly within: Within;
}

const locate = (
  x: Metres,
  xs: readonly number[],
  ys: readonly number[],
  sds: readonly number[],
  places: readonly Place[],
): Located => {
  const last = xs.length - 1;
  const i = lastAtMost(xs, x);
  const beyond = (k: number, kind: 'above the core' | 'below the core'): Located => {
    const value = ys[k] + x - xs[k];
    return { value, slope: 1, sd: sds[k], spread: 0, low: value, high: value, within: { kind } };
  };
  if (i < 0) return beyond(0, 'above the core');
  if (i === last && x > xs[last]) return beyond(last, 'below the core');
  if (xs[i] === x) {
    let first = i;
    while (first > 0 && xs[first - 1] === x) first--;
    const low = ys[first];
    const high = ys[i];
    const above = places[first].piece;
    const below = places[i].piece;
    return {
      value: (low + high) / 2,
      slope: 1,
      sd: Math.max(sds[first], sds[i]),
      spread: (high - low) / Math.sqrt(12),
      low,
      high,
      within: above === below ? { kind: 'ice', piece: above } : { kind: 'break', above, below },
    };
  }
  const share = (x - xs[i]) / (xs[i + 1] - xs[i]);
  const slope = (ys[i + 1] - ys[i]) / (xs[i + 1] - xs[i]);
  const value = ys[i] + share * (ys[i + 1] - ys[i]);
  // whatever the correlation of the two ends, the spread between them is not above this
  const sd = (1 - share) * sds[i] + share * sds[i + 1];
  const above = places[i].piece;
  const below = places[i + 1].piece;
  const isIce = above === below;
  return {
    value,
    slope,
    sd,
    spread: 0,
    low: isIce ? value : ys[i],
    high: isIce ? value : ys[i + 1],
    within: isIce ? { kind: 'ice', piece: above } : { kind: 'lost ice', above, below },
  };
};

/** One place on all scales. */
export interface ConversionRow extends Place {
  /** In the order of the scales; null where one does not reach. */
  readonly depths: readonly (Metres | null)[];
  /** Standard deviation on scales that have one. */
  readonly sds: readonly (Metres | null)[];
}

/**
 * All scales side by side at the top and bottom of every piece.
 *
 * @param scales of one hole; the first one says which places, in which order
 * @throws DepthScaleError for scales of several holes, or none
 */
export const conversionTable = (scales: readonly ScaleOfHole[]): readonly ConversionRow[] => {
  const [first] = scales;
  if (first === undefined) throw new DepthScaleError('A table of scales needs one scale at least.');
  const other = scales.find(({ hole }) => hole !== first.hole);
  if (other !== undefined)
    throw new DepthScaleError(
      `A table holds the scales of one hole, not of ${first.hole} and ${other.hole}: make two tables.`,
    );
  const columns = scales.map(
    ({ places }) => new Map(places.map((place, i) => [`${place.end} ${place.piece}`, i])),
  );
  return first.places.map((place) => {
    const at = columns.map((column) => column.get(`${place.end} ${place.piece}`));
    return {
      ...place,
      depths: scales.map((scale, s) => (at[s] === undefined ? null : scale.at[at[s]])),
      sds: scales.map((scale, s) => (at[s] === undefined || scale.sd === null ? null : scale.sd[at[s]])),
    };
  });
};
