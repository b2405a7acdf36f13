import type { DepthReadings, ZeroReading } from '../depth/readings.ts';
import type { DepthSolution } from '../depth/solution.ts';
import { solveDepths } from '../depth/solve.ts';
import type { Metres } from '../units.ts';

/** Something that could be measured now, and what it would do for the depth of the hole's bottom. */
export interface Check {
  readonly kind: 'sounding' | 'cable mark' | 'length' | 'zero';
  /** Id of the piece or the zero to be measured again; the run after which to sound or to check the cable. */
  readonly which: string;
  /** Depth of the cable's mark, or of the hole. */
  readonly at: Metres;
  /** Standard deviation of the hole's bottom without and with it. */
  readonly before: Metres;
  readonly after: Metres;
}

/** Weighted tape: 3 cm at the surface, 4 cm at 100 m. Common practice, no source. */
const SOUNDING_SD: Metres = 0.03;
const SOUNDING_SD_PER_METRE = 1e-4;
/** A mark on the cable against the counter, and a zero against its fixed mark. Common practice, no source. */
const MARK_SD: Metres = 0.01;
const ZERO_SD: Metres = 0.005;
/** Marks stand at full metres of cable; a shorter hole has no use for one. */
const LEAST_MARK: Metres = 2;

interface Candidate {
  readonly check: Omit<Check, 'before' | 'after'>;
  readonly readings: DepthReadings;
}

/** An id that no reading has. */
const NEW = 'check that was not made';

/**
 * Every check that can be made after the last run, each tried: the hole is solved again with the reading that is
 * expected of it. Best first.
 *
 * @param solution of these readings
 * @returns the checks, the one that leaves the least doubt first; none for a hole without runs
 */
export const nextChecks = (readings: DepthReadings, solution: DepthSolution): readonly Check[] => {
  const last = solution.runs.at(-1);
  if (last === undefined) return [];
  const before = last.holeBottom.sd;
  return candidates(readings, solution)
    .map(({ check, readings: more }) => {
      const after = solveDepths(more, solution.assumptions).runs.at(-1)?.holeBottom.sd ?? before;
      return { ...check, before, after };
    })
    .sort((a, b) => a.after - b.after);
};

const candidates = (readings: DepthReadings, solution: DepthSolution): readonly Candidate[] => {
  const last = solution.runs[solution.runs.length - 1];
  const bottom = last.holeBottom.value;
  const out: Candidate[] = [sounding(readings, solution, last.id, bottom)];
  const mark = Math.floor(bottom);
  if (mark >= LEAST_MARK) out.push(cableMark(readings, solution, last.id, mark));
  for (const { id, run, top, bottom: end } of solution.pieces) {
    const piece = readings.pieces.find((one) => one.id === id);
    if (run !== last.id || piece?.length === undefined) continue;
    // the tape that measured it would show this
    const again = (end.value - top.value) / (1 + solution.learned.tapeScale.value);
    const measured = { ...piece, lengths: [...(piece.lengths ?? []), again] };
    out.push({
      check: { kind: 'length', which: id, at: top.value },
      readings: { ...readings, pieces: readings.pieces.map((one) => (one.id === id ? measured : one)) },
    });
  }
  const zero = currentZero(readings);
  if (zero !== undefined && zero !== readings.zeros?.[0]) {
    const sd = 1 / Math.hypot(1 / zero.sd, 1 / ZERO_SD);
    const zeros = (readings.zeros ?? []).map((one) => (one === zero ? { ...zero, sd } : one));
    out.push({ check: { kind: 'zero', which: zero.id, at: 0 }, readings: { ...readings, zeros } });
  }
  return out;
};

/** The zero that the last run refers to; depths count from the first one. */
const currentZero = (readings: DepthReadings): ZeroReading | undefined => {
  const named = readings.runs.at(-1)?.zero;
  return readings.zeros?.find(({ id }) => id === named) ?? readings.zeros?.at(-1);
};

const sounding = (
  readings: DepthReadings,
  solution: DepthSolution,
  afterRun: string,
  bottom: Metres,
): Candidate => {
  const sd = SOUNDING_SD + SOUNDING_SD_PER_METRE * bottom;
  const zero = currentZero(readings);
  const shift = zero === undefined ? 0 : zero.height - (readings.zeros?.[0]?.height ?? 0);
  const depth = bottom - solution.learned.fillMean.value + shift;
  const made = { id: NEW, afterRun, depth, sd, ...(zero === undefined ? {} : { zero: zero.id }) };
  return {
    check: { kind: 'sounding', which: afterRun, at: bottom },
    readings: { ...readings, soundings: [...readings.soundings, made] },
  };
};

const cableMark = (
  readings: DepthReadings,
  solution: DepthSolution,
  afterRun: string,
  mark: Metres,
): Candidate => {
  const counter = mark * (1 + solution.learned.cableScale.value);
  return {
    check: { kind: 'cable mark', which: afterRun, at: mark },
    readings: {
      ...readings,
      cableChecks: [...(readings.cableChecks ?? []), { id: NEW, afterRun, counter, mark, sd: MARK_SD }],
    },
  };
};
