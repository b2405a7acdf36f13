import { QuantityError } from '../quantity-error.ts';
import type { Metres } from '../units.ts';
import { type DensityAssumptions, defaultDensityAssumptions } from './assumptions.ts';
import { type DensitySlip, likelySlips } from './likely-slip.ts';
import { type PieceDensity, pieceDensity } from './piece-density.ts';
import type { PlacedDensity } from './placed-density.ts';
import { type CutterSet, poolDiameters } from './pool-diameters.ts';
import { type DensityProfile, densityProfile, type Residual } from './profile.ts';
import type { PieceReadings } from './readings.ts';
import { median } from './robust.ts';
import {
  type WaterPiece,
  type WaterScale,
  type WaterStart,
  waterEquivalentScale,
} from './water-equivalent.ts';

/** A density that needs a look: what is odd, and which reading is most likely wrong. */
export interface DensityFlag {
  /** `more than ice`: above what ice can have by more than 3 standard deviations; else far from its neighbours. */
  readonly what: 'more than ice' | 'off the profile';
  /** By how many standard deviations. */
  readonly by: number;
  /** By falling probability; empty where no single slip explains it. */
  readonly slips: readonly DensitySlip[];
}

export interface CorePiece {
  readonly id: string;
  readonly cutterSet: string;
  readonly top: Metres | null;
  readonly bottom: Metres | null;
  /** Null where mass, length or diameter are missing. */
  readonly result: PieceDensity | null;
  /** Kept in all sums all the same. */
  readonly flag: DensityFlag | null;
}

export interface CoreDensity {
  readonly pieces: readonly CorePiece[];
  readonly sets: ReadonlyMap<string, CutterSet>;
  /** Null where fewer than two pieces have density and depth. */
  readonly profile: DensityProfile | null;
  readonly assumptions: DensityAssumptions;
}

/** Above what ice can have by so many standard deviations: impossible. */
const impossible = 3;
/** So far from its neighbours: worth a look (one good piece in 16,000 would be). */
const offProfile = 4;

/**
 * Density of all pieces of a core: diameters pooled over cutter sets, every piece with its errors, the smooth profile,
 * and flags with the reading that is likely wrong. Flagged pieces are kept in everything: dropping what is too high
 * alone would bias every mean.
 *
 * @param given pieces of one hole, ids distinct
 * @param reach of the profile, metres; found from the data where not given
 * @throws QuantityError for readings that no core has, or a piece that is there twice
 */
export const coreDensity = (
  given: readonly PieceReadings[],
  assumptions: DensityAssumptions = defaultDensityAssumptions,
  reach?: Metres,
): CoreDensity => {
  const ids = new Set<string>();
  for (const { id } of given) {
    if (ids.has(id)) throw new QuantityError(`piece ${id}`, 'it is there twice', 'every piece once');
    ids.add(id);
  }
  const { sets, diameters } = poolDiameters(given, assumptions);
  const results = given.map((piece, i) => pieceDensity(piece, diameters[i], assumptions));
  const placed = given.flatMap((piece, i): PlacedDensity[] => {
    const result = results[i];
    if (result === null || piece.top === undefined || piece.bottom === undefined) return [];
    const { value, randomSd, sharedSd } = result.density;
    return [
      {
        id: piece.id,
        top: piece.top,
        bottom: piece.bottom,
        density: value,
        randomSd,
        sharedShare: sharedSd / value,
        cutterSet: piece.cutterSet,
      },
    ];
  });
  const profile = placed.length < 2 ? null : densityProfile(placed, reach);
  const residuals = new Map((profile?.residuals ?? []).map((residual) => [residual.id, residual]));
  const tares = given.flatMap(({ tare }) => (tare === undefined || tare === 0 ? [] : [tare]));
  const typicalTare = tares.length === 0 ? null : median(tares);
  const pieces = given.map((piece, i): CorePiece => {
    const result = results[i];
    return {
      id: piece.id,
      cutterSet: piece.cutterSet,
      top: piece.top ?? null,
      bottom: piece.bottom ?? null,
      result,
      flag:
        result === null
          ? null
          : flagOf(
              piece,
              result,
              sets.get(piece.cutterSet)!,
              residuals.get(piece.id),
              typicalTare,
              assumptions,
            ),
    };
  });
  return { pieces, sets, profile, assumptions };
};

const flagOf = (
  piece: PieceReadings,
  result: PieceDensity,
  set: CutterSet,
  residual: Residual | undefined,
  tare: number | null,
  assumptions: DensityAssumptions,
): DensityFlag | null => {
  const { value, randomSd, sharedSd } = result.density;
  const above = (value - result.ice) / Math.hypot(randomSd, sharedSd);
  const by = residual?.byOthers ?? null;
  const off = by?.standardised ?? 0;
  if (above <= impossible && Math.abs(off) <= offProfile) return null;
  const byProfile =
    by === null ? null : { value: by.expected, sd: Math.sqrt(Math.max(0, by.sd ** 2 - randomSd ** 2)) };
  return {
    what: above > impossible ? 'more than ice' : 'off the profile',
    by: above > impossible ? above : off,
    slips: likelySlips(piece, result, set, { byProfile, tare }, assumptions),
  };
};

/**
 * Cumulative water equivalent of a core: see `waterEquivalentScale`.
 *
 * @returns null where there is no profile to fill what is missing
 * @throws QuantityError where pieces overlap
 */
export const coreWater = (core: CoreDensity, start?: WaterStart): WaterScale | null => {
  if (core.profile === null) return null;
  const pieces = core.pieces.flatMap(({ id, cutterSet, top, bottom, result }): WaterPiece[] => {
    if (top === null || bottom === null) return [];
    if (result === null) return [{ id, top, bottom, cutterSet, measured: null }];
    const { value, sharedSd } = result.waterEquivalent;
    return [
      {
        id,
        top,
        bottom,
        cutterSet,
        measured: { waterEquivalent: value, ...result.shares, shared: sharedSd / value },
      },
    ];
  });
  return waterEquivalentScale(pieces, core.profile, start);
};
