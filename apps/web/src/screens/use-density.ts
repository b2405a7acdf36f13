import { confirmationOf, type DensityView, type HoleView, type ThingView } from '@firnbook/campaign';
import type { CorePiece, DensitySlip } from '@firnbook/science/density';
import { useEffect } from 'react';
import type { BookHandle } from '../device/book.ts';
import { standing } from './hole.ts';

/** Densities of these holes, by their ids, as long as the screen stands; one that is not computed yet is absent. */
function useDensities(book: BookHandle, holes: readonly HoleView[]): BookHandle['densities'] {
  const { watchDensity } = book;
  const ids = holes.map((hole) => hole.id).join(' ');
  useEffect(() => {
    const stops = ids.split(' ').map(watchDensity);
    return () => {
      for (const stop of stops) stop();
    };
  }, [watchDensity, ids]);
  return book.densities;
}

/** Density of one hole's core; null until it is computed. */
export function useDensity(book: BookHandle, hole: HoleView): DensityView | null {
  return useDensities(book, [hole])[hole.id] ?? null;
}

/** Holes with densities that a person has to look at, and how many. */
export function useDensityFlags(
  book: BookHandle,
): readonly { readonly hole: HoleView; readonly count: number }[] {
  const holes = standing(book.campaign?.holes ?? []);
  const views = useDensities(book, holes);
  return holes.flatMap((hole) => {
    const view = views[hole.id];
    const count = view ? flagsOf(hole, view).filter((flag) => flag.confirmation === undefined).length : 0;
    return count === 0 ? [] : [{ hole, count }];
  });
}

/** A piece whose density can't be right, or does not fit. */
export interface FlaggedDensity {
  readonly thing: ThingView;
  readonly piece: CorePiece;
  /** The reading to look at first. */
  readonly field: string;
  /** The thing that says it is right; undefined where nobody has. */
  readonly confirmation: ThingView | undefined;
}

/** The newest ice first. */
export function flagsOf(hole: HoleView, view: DensityView): readonly FlaggedDensity[] {
  const things = new Map(hole.runs.flatMap((run) => run.pieces).map((piece) => [piece.id, piece]));
  return view.flagged
    .flatMap((id): readonly FlaggedDensity[] => {
      const [thing, piece] = [things.get(id), view.pieces[id]];
      if (!thing || !piece?.flag) return [];
      const slip = piece.flag.slips[0];
      const field = (slip && slipField(thing, slip)) ?? 'mass';
      return [{ thing, piece, field, confirmation: confirmationOf(hole, { which: id, field }) }];
    })
    .reverse();
}

const diameters = ['diameterTop', 'diameterMiddle', 'diameterBottom'] as const;

/** The field of the piece that a slip is about; undefined where several were read with the same slip. */
export function slipField(piece: ThingView, slip: DensitySlip): string | undefined {
  if (slip.reading !== 'diameter') return slip.reading;
  if (slip.index === null) return undefined;
  // Those that were not read are left out of the count.
  return diameters.filter((field) => typeof piece.readings[field]?.value === 'number')[slip.index];
}
