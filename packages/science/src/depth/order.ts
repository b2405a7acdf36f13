import { DepthInputError } from './input-error.ts';
import type { DepthReadings } from './readings.ts';
import { misnumbered, type WrongNumber } from './sequence.ts';

/** The readings with their places: runs 1..n in the order of the work, pieces in depth order. */
export interface Ordered {
  readonly readings: DepthReadings;
  /** In the order in which they were drilled as the counter tells it, see `sequence.ts`. */
  readonly runs: DepthReadings['runs'];
  /** Those that have a depth. */
  readonly pieces: DepthReadings['pieces'];
  readonly soundings: DepthReadings['soundings'];
  /** Run (1..n) of every piece, and run after which a sounding was made. */
  readonly runOfPiece: Int32Array;
  readonly runOfSounding: Int32Array;
  /** Pieces of run r: first[r] .. first[r+1]-1. */
  readonly first: Int32Array;
  /** Depth of every run's end, roughly: counter, else lengths so far. */
  readonly nominal: Float64Array;
  /** Run by its id. */
  readonly place: ReadonlyMap<string, number>;
  /** What was logged under a wrong run number. */
  readonly wrongNumbers: readonly WrongNumber[];
}

const must = (good: boolean, where: string, problem: string): void => {
  if (!good) throw new DepthInputError(where, problem);
};

/**
 * Puts pieces of one run side by side, keeping their order; checks what no adjustment can mend.
 *
 * @param moved pieces (by id) that belong to another run (by id) than the one they were logged under
 * @throws DepthInputError for a number that is none or below 0 where it can't be, a name used twice, a piece or
 *   sounding of an unknown run
 */
export const order = (readings: DepthReadings, moved: ReadonlyMap<string, string> = new Map()): Ordered => {
  const { soundings } = readings;
  checkRuns(readings);
  const { runs, wrong } = misnumbered(readings);
  const place = new Map<string, number>();
  for (let i = 0; i < runs.length; i++) place.set(runs[i].id, i + 1);
  const count = new Int32Array(runs.length + 2);
  const seen = new Set<string>();
  const runOf = new Int32Array(readings.pieces.length);
  let inPlace = 0;
  for (let i = 0; i < readings.pieces.length; i++) {
    const piece = readings.pieces[i];
    checkPiece(piece, seen);
    const run = place.get(moved.get(piece.id) ?? piece.run);
    if (run === undefined)
      throw new DepthInputError(
        `piece ${piece.id}`,
        `its run ${piece.run} is not among the runs; add the run or correct the piece`,
      );
    if (piece.outOfPlace === true) continue;
    count[run + 1] += 1;
    runOf[i] = run;
    inPlace++;
  }
  const first = new Int32Array(runs.length + 2);
  for (let r = 1; r <= runs.length; r++) first[r + 1] = first[r] + count[r + 1];
  const next = Int32Array.from(first);
  const pieces: DepthReadings['pieces'][number][] = new Array(inPlace);
  const runOfPiece = new Int32Array(inPlace);
  for (let i = 0; i < runOf.length; i++) {
    const run = runOf[i];
    if (run === 0) continue;
    const at = next[run]++;
    pieces[at] = readings.pieces[i];
    runOfPiece[at] = run;
  }
  // a piece that was the last of its run, and belongs to the next, is the first there
  if (moved.size > 0) {
    const among = new Map(readings.pieces.map((piece, i) => [piece.id, i]));
    const rank = new Map(readings.runs.map((run, i) => [run.id, i]));
    const key = (piece: (typeof pieces)[number]): number =>
      (rank.get(piece.run) as number) * readings.pieces.length + (among.get(piece.id) as number);
    for (let r = 1; r <= runs.length; r++) {
      const own = pieces.slice(first[r], first[r + 1]).sort((a, b) => key(a) - key(b));
      for (let i = 0; i < own.length; i++) pieces[first[r] + i] = own[i];
    }
  }
  const runOfSounding = soundingRuns(readings, place);
  checkOthers(readings, place);
  const nominal = new Float64Array(runs.length + 1);
  const begun = runs.find((run) => run.from !== undefined || run.to !== undefined);
  nominal[0] = begun?.from ?? 0;
  for (let r = 1; r <= runs.length; r++) {
    let length = 0;
    for (let i = first[r]; i < first[r + 1]; i++) length += pieces[i].length ?? 0;
    nominal[r] = runs[r - 1].to ?? nominal[r - 1] + length;
  }
  return {
    readings,
    runs,
    pieces,
    soundings,
    runOfPiece,
    runOfSounding,
    first,
    nominal,
    place,
    wrongNumbers: wrong,
  };
};

const checkRuns = ({ runs }: DepthReadings): void => {
  const names = new Set<string>();
  for (const run of runs) {
    const refuse = (problem: string): never => {
      throw new DepthInputError(`run ${run.id}`, problem);
    };
    if (names.has(run.id)) refuse('this run is there twice; give one of them another id');
    names.add(run.id);
    for (const field of ['from', 'to', 'cableTemperature', 'epoch'] as const)
      if (run[field] !== undefined && !Number.isFinite(run[field]))
        refuse(`${field} is not a number; leave it out`);
    for (const field of ['barrelLength', 'catcherHeight'] as const)
      if (!isMeasure(run[field])) refuse(`${field} must be 0 m or more; correct it or leave it out`);
    if (!isJudged(run.leftInHole)) refuse(`leftInHole ${JUDGED}`);
    for (const { top, bottom } of run.trayTape?.breaks ?? [])
      if (!(Number.isFinite(top) && Number.isFinite(bottom) && bottom >= top))
        refuse('a piece on its tray tape must end at or below where it begins; correct the positions');
  }
};

const isMeasure = (value: number | undefined): boolean =>
  value === undefined || (Number.isFinite(value) && value >= 0);

const isJudged = (judged: { readonly value: number; readonly sd: number } | undefined): boolean =>
  judged === undefined || (isMeasure(judged.value) && judged.sd > 0 && Number.isFinite(judged.sd));
const JUDGED = 'must be 0 m or more, with a standard deviation above 0 m; correct it or leave it out';

const checkPiece = (piece: DepthReadings['pieces'][number], seen: Set<string>): void => {
  const refuse = (problem: string): never => {
    throw new DepthInputError(`piece ${piece.id}`, problem);
  };
  if (seen.has(piece.id)) refuse('this piece is there twice; give one of them another id');
  seen.add(piece.id);
  const { catcherMark, temperature, lengths } = piece;
  for (const field of ['length', 'loss', 'kerf'] as const)
    if (!isMeasure(piece[field])) refuse(`${field} must be 0 m or more; correct it or leave it out`);
  if (lengths !== undefined && !lengths.every(isMeasure))
    refuse('lengths must be 0 m or more; correct them or leave them out');
  if (!isJudged(piece.crumbledMassLength)) refuse(`crumbledMassLength ${JUDGED}`);
  if (catcherMark !== undefined && !(isMeasure(catcherMark.depth) && (catcherMark.sd ?? 1) > 0))
    refuse('catcherMark must lie 0 m or more below its top; correct it or leave it out');
  if (temperature !== undefined && !Number.isFinite(temperature))
    refuse('temperature is not a number; leave it out');
};

const soundingRuns = ({ soundings }: DepthReadings, place: ReadonlyMap<string, number>): Int32Array => {
  const heard = new Set<string>();
  return Int32Array.from(soundings, (sounding) => {
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
};

/** Cable checks, zeros, catcher marks: what they refer to must be there. */
const checkOthers = (readings: DepthReadings, place: ReadonlyMap<string, number>): void => {
  for (const check of readings.cableChecks ?? []) {
    const where = `cable check ${check.id}`;
    must(place.has(check.afterRun), where, `run ${check.afterRun} is not among the runs; correct the run`);
    must(Number.isFinite(check.counter), where, 'its counter reading is not a number');
    must(Number.isFinite(check.mark) && check.mark > 0, where, 'its mark must be above 0 m');
    must(Number.isFinite(check.sd) && check.sd > 0, where, 'its standard deviation must be above 0 m');
  }
  const zeros = new Set<string>();
  for (const zero of readings.zeros ?? []) {
    const where = `zero ${zero.id}`;
    must(!zeros.has(zero.id), where, 'this zero is there twice; give one of them another id');
    zeros.add(zero.id);
    must(place.has(zero.fromRun), where, `run ${zero.fromRun} is not among the runs; correct the run`);
    must(Number.isFinite(zero.height), where, 'its height is not a number');
    must(Number.isFinite(zero.sd) && zero.sd > 0, where, 'its standard deviation must be above 0 m');
  }
  for (const { id, zero } of [...readings.runs, ...readings.soundings])
    if (zero !== undefined)
      must(zeros.has(zero), `run or sounding ${id}`, `its zero ${zero} is not among the zeros; add it`);
  for (const { id, catcherMark } of readings.pieces)
    if (catcherMark !== undefined)
      must(
        place.has(catcherMark.byRun),
        `piece ${id}`,
        `run ${catcherMark.byRun}, whose catchers left the mark, is not among the runs; correct it`,
      );
  const { strain } = readings;
  if (strain !== undefined)
    must(
      strain.depth.length > 0 &&
        strain.depth.length === strain.rate.length &&
        strain.depth.every((at, i) => Number.isFinite(at) && (i === 0 || at > strain.depth[i - 1])) &&
        strain.rate.every((rate) => Number.isFinite(rate)),
      'strain',
      'depths must grow, with one rate each',
    );
};
