import type { DepthReadings, PieceReading } from '../depth/readings.ts';
import type { DepthSolution } from '../depth/solution.ts';
import { readingVariance } from '../depth/tolerances.ts';
import type { Metres } from '../units.ts';
import { loggedGap, loggedLength } from './logged.ts';

/** One run's advance held against the ice that came of it. All in metres. */
export interface Closing {
  /** By the counter. */
  readonly advance: Metres;
  /** Lengths of the run's pieces together. */
  readonly core: Metres;
  /** Gaps that somebody measured or estimated: lost ice, ground ice, saw cuts. */
  readonly lost: Metres;
  /** What breaks hold on average that nobody measured. */
  readonly unseen: Metres;
  /** Chips on the bottom, on average: the drill touched down on them. */
  readonly chips: Metres;
  /** Ice left standing before the run, and after it, as solved. */
  readonly stubBefore: Metres;
  readonly stub: Metres;
  /** advance / (1 + cable's scale error) - chips + stubBefore - (core + lost + unseen + stub). */
  readonly difference: Metres;
  /** Two standard deviations of the readings in it. */
  readonly tolerance: Metres;
  readonly closes: boolean;
}

/**
 * Whether a run closes. The stubs are solved from all readings, so that ice left standing is no contradiction: only what
 * no stub can explain is left in `difference`.
 *
 * @param run id of one of the runs
 * @returns null where the counter or the length of a piece was not read
 */
export const closing = (
  readings: DepthReadings,
  solution: Pick<DepthSolution, 'runs' | 'assumptions' | 'learned'>,
  run: string,
): Closing | null => {
  const at = solution.runs.findIndex(({ id }) => id === run);
  const reading = readings.runs.find(({ id }) => id === run);
  if (at < 0 || reading?.from === undefined || reading.to === undefined) return null;
  const { assumptions: a, learned } = solution;
  const pieces = readings.pieces.filter((piece) => piece.run === run && piece.outOfPlace !== true);
  const lengths = pieces.map((piece) => loggedLength(piece, reading));
  if (lengths.includes(undefined)) return null;
  const core = (lengths as Metres[]).reduce((sum, length) => sum + length, 0);
  const lost = pieces.reduce((sum, piece) => sum + loggedGap(piece), 0);
  const means = pieces.map((piece) => unseenGap(piece, learned));
  const unseen = means.reduce((sum, mean) => sum + mean, 0);
  const chips = learned.fillMean.value;
  const stubBefore = at === 0 ? 0 : solution.runs[at - 1].stub.value;
  const stub = solution.runs[at].stub.value;
  const advance = reading.to - reading.from;
  const drilled = advance / (1 + learned.cableScale.value);
  const difference = drilled - chips + stubBefore - (core + lost + unseen + stub);
  const lengthSd = solution.runs[at].holeBottom.value < a.firnTo ? a.lengthSdFirn : a.lengthSdIce;
  let variance = 2 * readingVariance(a) + chips ** 2 + (learned.cableScale.sd * advance) ** 2;
  variance += pieces.length * lengthSd ** 2 + (pieces.length * a.runBiasSd) ** 2;
  for (const mean of means) variance += mean ** 2;
  for (const { topBreak, loss } of pieces)
    if ((topBreak === 'loss' || topBreak === 'ground') && loss !== undefined)
      variance += (a.lossSd + a.lossShareSd * loss) ** 2;
  const tolerance = 2 * Math.sqrt(variance);
  return {
    advance,
    core,
    lost,
    unseen,
    chips,
    stubBefore,
    stub,
    difference,
    tolerance,
    closes: Math.abs(difference) <= tolerance,
  };
};

/** Mean, and so standard deviation, of a gap that is taken as exponential. */
const unseenGap = (piece: PieceReading, learned: DepthSolution['learned']): Metres => {
  if (piece.topBreak === 'ground') return piece.loss === undefined ? learned.groundGapMean.value : 0;
  const isUnsure = piece.topBreak === 'unsure' || (piece.topBreak === 'loss' && piece.loss === undefined);
  return isUnsure ? learned.unsureGapMean.value : 0;
};
