import type { ColumnDepth, ColumnInput } from './input.ts';

/**
 * A moment between two solutions of the same hole, for showing where a correction moved the ice.
 * What is in the new one alone stands where it belongs; what is gone is gone.
 *
 * @param share 0 gives the old places, 1 the new ones
 */
export function blend(old: ColumnInput, now: ColumnInput, share: number): ColumnInput {
  if (share >= 1) return now;
  const pieces = new Map(old.pieces.map((piece) => [piece.id, piece]));
  const runs = new Map(old.runs.map((run) => [run.id, run]));
  return {
    ...now,
    pieces: now.pieces.map((piece) => {
      const was = pieces.get(piece.id);
      return was === undefined
        ? piece
        : {
            ...piece,
            top: between(was.top, piece.top, share),
            bottom: between(was.bottom, piece.bottom, share),
          };
    }),
    runs: now.runs.map((run) => {
      const was = runs.get(run.id)?.holeBottom;
      return was == null || run.holeBottom === null
        ? run
        : { ...run, holeBottom: between(was, run.holeBottom, share) };
    }),
  };
}

function between(a: ColumnDepth, b: ColumnDepth, share: number): ColumnDepth {
  const mix = (key: keyof ColumnDepth): number => a[key] + (b[key] - a[key]) * share;
  return { value: mix('value'), sd: mix('sd'), min: mix('min'), max: mix('max') };
}
