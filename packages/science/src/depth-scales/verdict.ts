import type { DepthReadings } from '../depth/readings.ts';
import type { DepthSolution, Finding } from '../depth/solution.ts';
import type { Metres } from '../units.ts';
import { type Closing, closing } from './closing.ts';
import { type Check, nextChecks } from './next-checks.ts';

/** What the bench is told after a run. */
export interface Verdict {
  readonly run: string;
  /** Null where the counter or a length was not read. */
  readonly closing: Closing | null;
  /** Readings on the bench that don't fit the others. */
  readonly lookAgain: readonly Finding[];
  /** Lengths on the bench that are worth a second measurement, best first. */
  readonly measureAgain: readonly Check[];
  /** Null where nobody said how much the barrel holds. */
  readonly longest: LongestRun | null;
  /** Every check that was tried, best first. */
  readonly checks: readonly Check[];
  /** The best one, if it is worth the trip. */
  readonly best: Check | null;
}

export interface LongestRun {
  /** Advance after which the barrel is full, at the largest stub that is likely. */
  readonly length: Metres;
  readonly barrel: Metres;
  /** Nearly all stubs are shorter (95 % of simulated ones). */
  readonly stub: Metres;
}

/** A check that takes away less of the doubt than this, or less than this many metres, is not worth a word. */
const WORTH_SHARE = 0.1;
const WORTH: Metres = 0.002;
/** Runs whose core lies on the bench: this one and the one before. Common practice, no source. */
const ON_BENCH = 2;

/**
 * The verdict after a run, from all readings so far.
 *
 * @param solution of these readings
 * @param barrel longest core that the barrel holds; the run's own `barrelLength` where it is left out
 * @returns null for a hole without runs
 */
export const verdict = (
  readings: DepthReadings,
  solution: DepthSolution,
  barrel: Metres | undefined = readings.runs.at(-1)?.barrelLength,
): Verdict | null => {
  const last = solution.runs.at(-1);
  if (last === undefined) return null;
  const bench = new Set(solution.runs.slice(-ON_BENCH).map(({ id }) => id));
  const things = new Set([
    ...bench,
    ...readings.pieces.filter((piece) => bench.has(piece.run)).map((piece) => piece.id),
    ...readings.soundings.filter((one) => bench.has(one.afterRun)).map((one) => one.id),
  ]);
  const checks = nextChecks(readings, solution);
  const [first] = checks;
  return {
    run: last.id,
    closing: closing(readings, solution, last.id),
    lookAgain: solution.findings.filter(({ which }) => things.has(which)),
    measureAgain: checks.filter((check) => check.kind === 'length' && isWorth(check)),
    longest: barrel === undefined ? null : longestRun(barrel, last.stub),
    checks,
    best: first !== undefined && isWorth(first) ? first : null,
  };
};

const isWorth = ({ before, after }: Check): boolean =>
  before - after >= WORTH && before - after >= WORTH_SHARE * before;

/**
 * Standard deviations above its mean that a stub may have. Of 300 last runs of simulated seasons, with heavier tails than
 * the solver believes, 95 % left less than that, and 85 % less than 2.
 */
const MOST_STUB = 3;

const longestRun = (barrel: Metres, stub: DepthSolution['runs'][number]['stub']): LongestRun => {
  const most = Math.min(stub.max, stub.value + MOST_STUB * stub.sd);
  return { length: Math.max(0, barrel - most), barrel, stub: most };
};
