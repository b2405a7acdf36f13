import { DepthInputError } from './input-error.ts';
import type { DepthReadings } from './readings.ts';

/** The readings with their places: runs 1..n in the order of the work, pieces in depth order. */
export interface Ordered {
  readonly runs: DepthReadings['runs'];
  readonly pieces: DepthReadings['pieces'];
  readonly soundings: DepthReadings['soundings'];
  /** Run (1..n) of every piece, and run after which a sounding was made. */
  readonly runOfPiece: Int32Array;
  readonly runOfSounding: Int32Array;
  /** Pieces of run r: first[r] .. first[r+1]-1. */
  readonly first: Int32Array;
  /** Depth of every run's end, roughly: counter, else lengths so far. */
  readonly nominal: Float64Array;
}

const must = (good: boolean, where: string, problem: string): void => {
  if (!good) throw new DepthInputError(where, problem);
};

/**
 * Puts pieces of one run side by side, keeping their order; checks what no adjustment can mend.
 *
 * @throws DepthInputError for a number that is none or below 0 where it can't be, a name used twice, a piece or
 *   sounding of an unknown run
 */
export const order = (readings: DepthReadings): Ordered => {
  const { runs, soundings } = readings;
  const place = new Map<string, number>();
  runs.forEach((run, i) => {
    const where = `run ${run.id}`;
    must(!place.has(run.id), where, 'this run is there twice; give one of them another id');
    place.set(run.id, i + 1);
    for (const field of ['from', 'to'] as const)
      must(
        run[field] === undefined || Number.isFinite(run[field]),
        where,
        `${field} is not a number; leave it out`,
      );
  });
  const count = new Int32Array(runs.length + 2);
  const seen = new Set<string>();
  const runOf = readings.pieces.map((piece) => {
    const where = `piece ${piece.id}`;
    must(!seen.has(piece.id), where, 'this piece is there twice; give one of them another id');
    seen.add(piece.id);
    const run = place.get(piece.run);
    if (run === undefined)
      throw new DepthInputError(
        where,
        `its run ${piece.run} is not among the runs; add the run or correct the piece`,
      );
    for (const field of ['length', 'loss'] as const) {
      const value = piece[field];
      must(
        value === undefined || (Number.isFinite(value) && value >= 0),
        where,
        `${field} must be 0 m or more; correct it or leave it out`,
      );
    }
    count[run + 1] += 1;
    return run;
  });
  const first = new Int32Array(runs.length + 2);
  for (let r = 1; r <= runs.length; r++) first[r + 1] = first[r] + count[r + 1];
  const next = Int32Array.from(first);
  const pieces: DepthReadings['pieces'][number][] = new Array(runOf.length);
  const runOfPiece = new Int32Array(runOf.length);
  runOf.forEach((run, i) => {
    const at = next[run]++;
    pieces[at] = readings.pieces[i];
    runOfPiece[at] = run;
  });
  const heard = new Set<string>();
  const runOfSounding = Int32Array.from(soundings, (sounding) => {
    const where = `sounding ${sounding.id}`;
    must(!heard.has(sounding.id), where, 'this sounding is there twice; give one of them another id');
    heard.add(sounding.id);
    const run = place.get(sounding.afterRun);
    if (run === undefined)
      throw new DepthInputError(
        where,
        `run ${sounding.afterRun} is not among the runs; correct the run after which it was made`,
      );
    must(Number.isFinite(sounding.depth), where, 'its depth is not a number');
    must(Number.isFinite(sounding.sd) && sounding.sd > 0, where, 'its standard deviation must be above 0 m');
    return run;
  });
  const nominal = new Float64Array(runs.length + 1);
  const begun = runs.find((run) => run.from !== undefined || run.to !== undefined);
  nominal[0] = begun?.from ?? 0;
  for (let r = 1; r <= runs.length; r++) {
    let length = 0;
    for (let i = first[r]; i < first[r + 1]; i++) length += pieces[i].length ?? 0;
    nominal[r] = runs[r - 1].to ?? nominal[r - 1] + length;
  }
  return { runs, pieces, soundings, runOfPiece, runOfSounding, first, nominal };
};
