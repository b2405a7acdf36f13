import type { Meeting, WrittenPiece } from './season.ts';

type Words = Readonly<Record<Meeting, Readonly<Partial<Record<WrittenPiece['topBreak'], number>>>>>;

/**
 * What is said of a break by a crew that knows three words. Somebody says "fits" of ice that is lost, and "unsure" of
 * ice that fits. Shares are common practice, no source.
 */
export const firstWords: Words = {
  fits: { fits: 0.94, unsure: 0.055, loss: 0.005 },
  ground: { fits: 0.15, unsure: 0.5, loss: 0.35 },
  lost: { fits: 0.02, unsure: 0.1, loss: 0.88 },
  sawn: { loss: 1 },
  handling: { fits: 0.95, unsure: 0.05 },
};

/** The same of a crew that also says ground, sawn, broken in handling. */
export const moreWords: Words = {
  fits: { fits: 0.94, unsure: 0.04, ground: 0.01, handling: 0.005, loss: 0.005 },
  ground: { fits: 0.1, ground: 0.6, unsure: 0.2, loss: 0.1 },
  lost: { fits: 0.02, ground: 0.03, unsure: 0.1, loss: 0.85 },
  sawn: { sawn: 0.98, fits: 0.02 },
  handling: { handling: 0.85, fits: 0.13, unsure: 0.02 },
};
