import { numberIn, textIn } from '../thing-view.ts';
import type { ThingView } from '../view.ts';

/** Metres below the zero. */
export interface IcePlace {
  readonly top: number;
  readonly bottom: number;
}

/**
 * Where a feature lies: its distance from the named end of its piece, held inside of the piece. Measured upwards, the
 * distance is to the feature's lower edge. Null where the distance was not read.
 *
 * @param piece where its piece lies
 */
export function featurePlace(feature: Pick<ThingView, 'readings'>, piece: IcePlace): IcePlace | null {
  const at = numberIn(feature, 'at');
  if (at === null) return null;
  const thickness = Math.max(0, numberIn(feature, 'thickness') ?? 0);
  const start = textIn(feature, 'end') === 'bottom' ? piece.bottom - at - thickness : piece.top + at;
  const inside = (depth: number): number => Math.min(piece.bottom, Math.max(piece.top, depth));
  return { top: inside(start), bottom: inside(start + thickness) };
}
