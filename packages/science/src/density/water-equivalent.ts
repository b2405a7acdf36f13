import { QuantityError } from '../quantity-error.ts';
import type { KilogramsPerCubicMetre, Metres, MetresWaterEquivalent, Ratio } from '../units.ts';
import { type Shared, waterDensity } from './cylinder.ts';
import type { DensityProfile } from './profile.ts';

/** A layer of known density as metres of water; by convention of water of 1000 kg/m3. */
export const layerWaterEquivalent = (
  thickness: Metres,
  density: KilogramsPerCubicMetre,
): MetresWaterEquivalent => (thickness * density) / waterDensity;

/** Water as metres of ice without air: w.e. 1000/rho_ice. */
export const iceEquivalent = (water: MetresWaterEquivalent, ice: KilogramsPerCubicMetre): Metres =>
  (water * waterDensity) / ice;

/** A piece where it lay; what it weighs per area, where that was measured. */
export interface WaterPiece {
  readonly id: string;
  readonly top: Metres;
  readonly bottom: Metres;
  readonly cutterSet: string;
  /** Null where it was not weighed: the profile fills it. */
  readonly measured: {
    readonly waterEquivalent: MetresWaterEquivalent;
    /** Random errors as shares: of mass over area, and of the length that the density has besides. */
    readonly area: Ratio;
    readonly length: Ratio;
    /** What it has in common with its cutter set, as a share. */
    readonly shared: Ratio;
  } | null;
}

/** Where counting begins: 0 at the zero, or what a pit or another core says of the ice above. */
export interface WaterStart {
  readonly depth: Metres;
  readonly waterEquivalent: MetresWaterEquivalent;
  readonly sd: MetresWaterEquivalent;
}

/** One end of a piece or gap. */
export interface WaterNode extends Shared<MetresWaterEquivalent> {
  readonly depth: Metres;
  /** What the stretch above it is: weighed, or filled from the profile. */
  readonly above: 'start' | 'weighed' | 'filled';
}

/** Depth in metres of water, both ways. */
export interface WaterScale {
  readonly nodes: readonly WaterNode[];
  /** Share of the way that was weighed. */
  readonly weighed: Ratio;
  /** @throws QuantityError outside the nodes */
  readonly waterAt: (depth: Metres) => Shared<MetresWaterEquivalent>;
  /** The inverse; errors of the water are turned into depth by the density there. @throws QuantityError outside */
  readonly depthAt: (water: MetresWaterEquivalent) => Shared<Metres>;
}

/** Pieces may seem to overlap by so much through rounding of their depths. */
const roundingOverlap: Metres = 0.02;
/** Stretches that are filled are cut to at most this, so that the scale between nodes is all but straight. */
const longestFill: Metres = 0.1;

/**
 * Cumulative water equivalent: of every weighed piece its mass over its area (its length cancels), of what is missing
 * or was not weighed the smooth profile.
 *
 * Errors. The total is linear in what was measured of each piece: its own w.e. plus its part in every fill,
 * so a piece's error counts once, wherever it enters. With W_i and F_i what piece i contributes itself and
 * by fills, a, b its random shares by area and length, s the scatter of firn about the profile:
 * random^2 = start^2 + sum (W_i + F_i)^2 a^2 + (F_i b)^2 + (s dF_i/drho)^2 + sum over gaps s^2 gap min(gap, mean piece);
 * shared^2 = sum over cutter sets (sum (W_i + F_i) shared_i)^2. Errors of the depths themselves are not in it.
 *
 * @param given pieces of one hole; those that were weighed and not
 * @param profile of the same hole, over the same weighed pieces
 * @throws QuantityError where two pieces overlap by more than 2 cm, or a piece begins above the start
 */
export const waterEquivalentScale = (
  given: readonly WaterPiece[],
  profile: DensityProfile,
  start: WaterStart = { depth: 0, waterEquivalent: 0, sd: 0 },
): WaterScale => {
  const pieces = given.toSorted((a, b) => a.top - b.top);
  if (pieces.length === 0)
    throw new QuantityError('water equivalent', 'there are no pieces with a depth', 'one or more');
  const count = new Counting(profile, pieces, start);
  const nodes: WaterNode[] = [
    {
      depth: start.depth,
      value: start.waterEquivalent,
      randomSd: start.sd,
      sharedSd: 0,
      above: 'start',
    },
  ];
  const push = (depth: Metres, above: WaterNode['above']) => nodes.push({ depth, ...count.now(), above });
  const fillTo = (to: Metres) => {
    const from = nodes.at(-1)!.depth;
    const parts = Math.ceil((to - from) / longestFill);
    for (let k = 1; k <= parts; k++) {
      const depth = from + ((to - from) * k) / parts;
      count.fill(nodes.at(-1)!.depth, depth);
      push(depth, 'filled');
    }
    count.endGap();
  };
  let weighed = 0;
  pieces.forEach((piece, i) => {
    const above = nodes.at(-1)!.depth;
    const gap = piece.top - above;
    if (gap < -roundingOverlap || piece.bottom <= above)
      throw new QuantityError(
        `piece ${piece.id}`,
        `its top at ${piece.top} m lies ${(-gap).toFixed(3)} m above ${i === 0 ? 'where counting begins' : `the bottom of piece ${pieces[i - 1].id}`}`,
        `${above} m or deeper`,
      );
    if (gap > 0) fillTo(piece.top);
    if (piece.measured === null) fillTo(piece.bottom);
    else {
      count.weigh(piece);
      push(piece.bottom, 'weighed');
      weighed += piece.bottom - Math.max(piece.top, above);
    }
  });
  const total = nodes.at(-1)!.depth - start.depth;
  return { nodes, weighed: weighed / total, ...bothWays(nodes) };
};

/** Running sum, and of every piece its part in it, so that variances are of the sum and not of its steps. */
class Counting {
  private readonly profile: DensityProfile;
  private readonly places: ReadonlyMap<string, number>;
  private readonly own: Float64Array;
  private readonly filled: Float64Array;
  /** Filled metres per piece: how fill changes with its density. */
  private readonly reached: Float64Array;
  private readonly area: Float64Array;
  private readonly length: Float64Array;
  private readonly shared = new Map<string, number>();
  private readonly meanPiece: Metres;
  private total: MetresWaterEquivalent;
  private variance: number;
  private gapVariance = 0;
  private gap: Metres = 0;

  constructor(profile: DensityProfile, pieces: readonly WaterPiece[], start: WaterStart) {
    this.profile = profile;
    this.places = new Map(profile.pieces.map(({ id }, i) => [id, i]));
    const column = () => new Float64Array(profile.pieces.length);
    [this.own, this.filled, this.reached] = [column(), column(), column()];
    const measured = new Map(pieces.map((piece) => [piece.id, piece.measured]));
    // a piece of the profile that was not weighed here has its density's error alone
    this.area = Float64Array.from(
      profile.pieces,
      ({ id, density, randomSd }) => measured.get(id)?.area ?? randomSd / density,
    );
    this.length = Float64Array.from(profile.pieces, ({ id }) => measured.get(id)?.length ?? 0);
    this.meanPiece =
      profile.pieces.reduce((sum, { top, bottom }) => sum + bottom - top, 0) / profile.pieces.length;
    this.total = start.waterEquivalent;
    this.variance = start.sd ** 2;
  }

  weigh({ id, cutterSet, measured }: WaterPiece): void {
    const { waterEquivalent, area, shared } = measured!;
    this.total += waterEquivalent;
    this.share(cutterSet, waterEquivalent * shared);
    const i = this.places.get(id);
    if (i === undefined) this.variance += (waterEquivalent * area) ** 2;
    else this.give(i, waterEquivalent, 0, 0);
  }

  fill(from: Metres, to: Metres): void {
    const { first, by } = this.profile.smoother((from + to) / 2);
    by.forEach((l, k) => {
      const { density, sharedShare, cutterSet } = this.profile.pieces[first + k];
      const metres = l * (to - from);
      const water = layerWaterEquivalent(metres, density);
      this.give(first + k, 0, water, metres);
      this.total += water;
      this.share(cutterSet, water * sharedShare);
    });
    this.gap += to - from;
  }

  endGap(): void {
    this.gapVariance += this.scatterOf(this.gap);
    this.gap = 0;
  }

  now(): Shared<MetresWaterEquivalent> {
    return {
      value: this.total,
      randomSd: Math.sqrt(Math.max(0, this.variance) + this.gapVariance + this.scatterOf(this.gap)),
      sharedSd: Math.hypot(...this.shared.values()),
    };
  }

  private give(i: number, own: number, filled: number, metres: Metres): void {
    this.variance -= this.part(i);
    this.own[i] += own;
    this.filled[i] += filled;
    this.reached[i] += metres;
    this.variance += this.part(i);
  }

  private part(i: number): number {
    return (
      ((this.own[i] + this.filled[i]) * this.area[i]) ** 2 +
      (this.filled[i] * this.length[i]) ** 2 +
      layerWaterEquivalent(this.reached[i], this.profile.scatter) ** 2
    );
  }

  private share(set: string, water: number): void {
    this.shared.set(set, (this.shared.get(set) ?? 0) + water);
  }

  /** What the ice of a gap may differ from the smooth curve. */
  private scatterOf(gap: Metres): number {
    return (this.profile.scatter / waterDensity) ** 2 * gap * Math.min(gap, this.meanPiece);
  }
}

const bothWays = (nodes: readonly WaterNode[]): Pick<WaterScale, 'waterAt' | 'depthAt'> => {
  /** Index of the node at or below, and how far from the one above. */
  const between = (key: 'depth' | 'value', x: number, unit: string) => {
    const [low, high] = [nodes[0][key], nodes.at(-1)![key]];
    if (!(x >= low && x <= high))
      throw new QuantityError(
        'water equivalent',
        `${x} ${unit} is outside the core`,
        `${low} to ${high} ${unit}`,
      );
    let [above, below] = [0, nodes.length - 1];
    while (below - above > 1) {
      const half = (above + below) >> 1;
      if (nodes[half][key] <= x) above = half;
      else below = half;
    }
    const [a, b] = [nodes[above], nodes[below]];
    const f = b[key] === a[key] ? 0 : (x - a[key]) / (b[key] - a[key]);
    const mixed = (name: 'depth' | 'value' | 'randomSd' | 'sharedSd') => a[name] + f * (b[name] - a[name]);
    return { a, b, mixed };
  };
  return {
    waterAt: (depth) => {
      const { mixed } = between('depth', depth, 'm');
      return { value: mixed('value'), randomSd: mixed('randomSd'), sharedSd: mixed('sharedSd') };
    },
    depthAt: (water) => {
      const { a, b, mixed } = between('value', water, 'm w.e.');
      const slope = (b.depth - a.depth) / (b.value - a.value);
      return {
        value: mixed('depth'),
        randomSd: mixed('randomSd') * slope,
        sharedSd: mixed('sharedSd') * slope,
      };
    },
  };
};
