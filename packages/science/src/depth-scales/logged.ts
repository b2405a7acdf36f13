import type { PieceReading, RunReading } from '../depth/readings.ts';
import type { Metres } from '../units.ts';

/** Gap above a piece as it was logged: lost ice that was estimated, or the saw's cut; else none. */
export const loggedGap = (piece: PieceReading): Metres => {
  if (piece.topBreak === 'sawn') return piece.kerf ?? 0;
  return piece.topBreak === 'loss' || piece.topBreak === 'ground' ? (piece.loss ?? 0) : 0;
};

/** Length as it was logged: of the piece, along the tray tape, or of crumbled core from its mass. */
export const loggedLength = (piece: PieceReading, run: RunReading | undefined): Metres | undefined => {
  if (piece.length !== undefined) return piece.length;
  const along = run?.trayTape?.breaks.find((one) => one.piece === piece.id);
  return along === undefined ? piece.crumbledMassLength?.value : along.bottom - along.top;
};
