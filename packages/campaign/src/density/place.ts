import type { DepthView } from '../view.ts';

/** Where a piece lies; undefined while it has no depth. Any text may be asked for. */
export const placeOf = (depths: DepthView | null, piece: string): DepthView['pieces'][string] | undefined =>
  depths !== null && Object.hasOwn(depths.pieces, piece) ? depths.pieces[piece] : undefined;
