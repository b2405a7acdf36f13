/** One season from its seed: simulated, written down with and without slips, solved with and without soundings. */
import {
  type DepthReadings,
  type DepthSolution,
  defaultAssumptions,
  solveDepths,
} from '@firnbook/science/depth';
import { seeded } from '@firnbook/science/random';
import {
  type Season,
  type SeasonReadings,
  simulateSeason,
  type TrueSlip,
  usualPlan,
  withSlips,
} from '@firnbook/science/simulate-season';
import { type DenseSolution, solveDense } from './dense.ts';
import { judgeFlags, shiftsOf } from './flags.ts';

/** How many of a season's true depths lie in their 95 % intervals. */
export interface Covered {
  readonly all: number;
  readonly inside: number;
}

interface Coverage {
  readonly tops: Covered;
  readonly bottoms: Covered;
  readonly holes: Covered;
}

export interface SlipOutcome {
  readonly kind: TrueSlip['kind'];
  readonly what: TrueSlip['what'];
  readonly field: TrueSlip['field'];
  readonly which: string;
  readonly size: number;
  /** Smallest slip that a least-squares adjustment of these readings would see here. */
  readonly detectable: number;
  readonly found: 'named' | 'near' | 'no';
}

export interface Outcome {
  readonly readings: number;
  /** Root mean square error of the bottoms of the pieces, metres, no slips. */
  readonly rms: {
    readonly solved: number;
    readonly dense: number;
    readonly logger: number;
    readonly driller: number;
  };
  readonly clean: Coverage & { readonly falseFlags: number; readonly wrongWords: number };
  readonly slipped: Coverage & {
    readonly rms: number;
    readonly falseFlags: number;
    readonly wrongWords: number;
    readonly slips: readonly SlipOutcome[];
  };
  readonly notSettled: number;
}

/** About one slip in a hundred readings: five or six in a season. Common practice, no source. */
const SLIPS_PER_READING = 0.01;
const HALF_WIDTH = 1.96;

const coverage = (season: Season, solution: DepthSolution): Coverage => {
  const { truth } = season;
  const place = new Map(truth.pieceIds.map((id, i) => [id, i]));
  const count = (
    pairs: readonly (readonly [{ readonly value: number; readonly sd: number }, number])[],
  ): Covered => ({
    all: pairs.length,
    inside: pairs.filter(([{ value, sd }, true_]) => Math.abs(value - true_) < HALF_WIDTH * sd).length,
  });
  const known = solution.pieces.flatMap((piece) => {
    const i = place.get(piece.id);
    return i === undefined ? [] : [{ piece, i }];
  });
  return {
    tops: count(known.map(({ piece, i }) => [piece.top, truth.top[i]])),
    bottoms: count(known.map(({ piece, i }) => [piece.bottom, truth.bottom[i]])),
    holes: count(solution.runs.map((run, i) => [run.holeBottom, truth.hole[i]])),
  };
};

const rmsOf = (errors: readonly number[]): number =>
  Math.sqrt(errors.reduce((sum, error) => sum + error ** 2, 0) / errors.length);

const solvedErrors = (season: Season, solution: DepthSolution): number[] => {
  const place = new Map(season.truth.pieceIds.map((id, i) => [id, i]));
  return solution.pieces.flatMap((piece) => {
    const i = place.get(piece.id);
    return i === undefined ? [] : [piece.bottom.value - season.truth.bottom[i]];
  });
};

/** Pieces that have a depth, in order, with the length that a logger would add up: measured, off the tray, of its mass. */
const summed = ({ readings, truth }: Season) => {
  const runs = new Map(readings.runs.map((run) => [run.id, run]));
  const place = new Map(truth.pieceIds.map((id, i) => [id, i]));
  return readings.pieces.flatMap((piece) => {
    const i = place.get(piece.id);
    if (i === undefined) return [];
    const run = runs.get(piece.run) as (typeof readings.runs)[number];
    const tray = run.trayTape?.breaks.find((one) => one.piece === piece.id);
    const length =
      tray === undefined ? (piece.length ?? piece.crumbledMassLength?.value ?? 0) : tray.bottom - tray.top;
    return [{ run, length, loss: piece.loss ?? piece.kerf ?? 0, bottom: truth.bottom[i] }];
  });
};

/** Logger's depth: lengths and estimates of lost ice added up from the surface. */
const loggerErrors = (season: Season): number[] => {
  let sum = 0;
  return summed(season).map(({ length, loss, bottom }) => {
    sum += length + loss;
    return sum - bottom;
  });
};

/** Driller's depth of a piece: counter at the end of its run, less the pieces of the run that lie below it. */
const drillerErrors = (season: Season): number[] => {
  const pieces = summed(season);
  return pieces.flatMap(({ run, bottom }, i) => {
    if (run.to === undefined) return [];
    let below = 0;
    for (let j = i + 1; pieces[j]?.run === run; j++) below += pieces[j].length + pieces[j].loss;
    return [run.to - below - bottom];
  });
};

const judge = (
  season: Season,
  readings: DepthReadings,
  slips: readonly TrueSlip[],
  slippedReadings: DepthReadings,
): Outcome => {
  const solved = solveDepths(readings);
  const dense: DenseSolution = solveDense(readings, defaultAssumptions);
  const flags = judgeFlags(season, [], solved.findings);
  const slipped = solveDepths(slippedReadings);
  const found = judgeFlags(season, slips, slipped.findings);
  return {
    readings: 2 * readings.runs.length + readings.pieces.length + readings.soundings.length,
    rms: {
      solved: rmsOf(solvedErrors(season, solved)),
      dense: rmsOf(
        season.truth.pieceIds.map((id, i) => (dense.bottom.get(id) as number) - season.truth.bottom[i]),
      ),
      logger: rmsOf(loggerErrors(season)),
      driller: rmsOf(drillerErrors(season)),
    },
    clean: { ...coverage(season, solved), falseFlags: flags.falseFlags.length, wrongWords: flags.wrongWords },
    slipped: {
      ...coverage(season, slipped),
      rms: rmsOf(solvedErrors(season, slipped)),
      falseFlags: found.falseFlags.length,
      wrongWords: found.wrongWords,
      slips: found.slips.map(({ slip, found }) => ({
        kind: slip.kind,
        what: slip.what,
        field: slip.field,
        which: slip.which,
        size: slip.size,
        detectable: dense.detectable(shiftsOf(season, slip)),
        found,
      })),
    },
    notSettled: Number(!solved.converged) + Number(!slipped.converged),
  };
};

/** The second stream of a season's seed: slips must not change what was drilled. */
const SLIP_STREAM = 0x51ed270b;

/** With 3 soundings by weighted tape, or the same season without them. */
export type Way = 'sounded' | 'unsounded';

export const judgeSeason = (seed: number, way: Way): Outcome => {
  const season = simulateSeason(seeded(seed), { ...usualPlan, habits: 'drawn' });
  const { readings, slips } = withSlips(seeded(seed ^ SLIP_STREAM), season, SLIPS_PER_READING);
  if (way === 'sounded') return judge(season, season.readings, slips, readings);
  const heard = slips.filter((slip) => slip.what !== 'sounding');
  const without = (all: SeasonReadings): SeasonReadings => ({ ...all, soundings: [] });
  return judge(season, without(season.readings), heard, without(readings));
};
