import type { Random } from '../random/index.ts';

/**
 * An invented season: a hole is drilled, its core is logged, and what really happened is kept beside what was
 * written down. It knows nothing of the solver; errors have heavier tails than the solver believes, a logger has a
 * bias that changes from run to run. All numbers are invented; depths in metres.
 */
export interface SeasonPlan {
  readonly runs: number;
  /** Soundings by weighted tape, evenly spread. */
  readonly soundings: number;
  /** Share of runs that leave all their core in the hole; the next one brings it. */
  readonly emptyShare: number;
  /** Share of runs that leave a few decimetres standing. */
  readonly longStubShare: number;
  /** Shortest and longest run; most pieces of a run. */
  readonly runFrom: number;
  readonly runTo: number;
  readonly mostPieces: number;
}

export interface SeasonReadings {
  readonly runs: { readonly id: string; readonly from: number; readonly to: number }[];
  readonly pieces: {
    readonly id: string;
    readonly run: string;
    readonly length: number;
    readonly topBreak: 'fits' | 'loss' | 'unsure';
    readonly loss?: number;
  }[];
  readonly soundings: {
    readonly id: string;
    readonly afterRun: string;
    readonly depth: number;
    readonly sd: number;
  }[];
}

export interface Season {
  readonly readings: SeasonReadings;
  readonly truth: {
    readonly hole: readonly number[];
    readonly top: readonly number[];
    readonly bottom: readonly number[];
    readonly cableScale: number;
    readonly tapeScale: number;
  };
}

export const usualPlan: SeasonPlan = {
  runs: 120,
  soundings: 2,
  emptyShare: 0.02,
  longStubShare: 0.03,
  runFrom: 0.55,
  runTo: 1,
  mostPieces: 4,
};

const rounded = (value: number, step: number): number => {
  const per = Math.round(1 / step);
  return Math.round(value * per) / per;
};

export const simulateSeason = (random: Random, plan: SeasonPlan = usualPlan): Season => {
  // Student's t with 5 degrees of freedom, scaled to variance 1
  const error = () => random.studentT(5) * Math.sqrt(3 / 5);
  const cableScale = 0.004 * random.normal();
  const tapeScale = 0.0004 * random.normal();
  const factor = () => 2 ** random.normal();
  const fillMean = 0.02 * factor();
  const stubMean = 0.03 * factor();
  const gapMean = 0.01 * factor();
  const lossBias = Math.exp(0.1 * random.normal());

  const runs: SeasonReadings['runs'] = [];
  const pieces: SeasonReadings['pieces'] = [];
  const soundings: SeasonReadings['soundings'] = [];
  const hole: number[] = [];
  const top: number[] = [];
  const bottom: number[] = [];
  const every = plan.soundings > 0 ? Math.max(1, Math.floor(plan.runs / plan.soundings)) : 0;

  let depth = 0;
  let cored = 0;
  let leftIn = false;
  let fill = 0;
  for (let r = 1; r <= plan.runs; r++) {
    const id = String(r);
    const offset = 0.01 * error();
    const counter = (at: number) => rounded(at * (1 + cableScale) + offset + 0.007 * error(), 0.01);
    const from = counter(depth - fill);
    depth += plan.runFrom + (plan.runTo - plan.runFrom) * random.uniform();
    hole.push(depth);
    runs.push({ id, from, to: counter(depth) });

    leftIn = r < plan.runs && random.uniform() < plan.emptyShare;
    if (!leftIn) {
      const long = random.uniform() < plan.longStubShare;
      const stub = Math.min(
        long ? 0.5 * random.uniform() : stubMean * random.exponential(),
        (depth - cored) / 2,
      );
      const end = depth - stub;
      const bias = 0.001 * random.normal();
      const count = 1 + Math.floor((plan.mostPieces - 0.5) * random.uniform() ** 1.5);
      // where the breaks are, and how they meet
      const cuts = Array.from({ length: count - 1 }, () => 0.05 + 0.9 * random.uniform()).sort(
        (a, b) => a - b,
      );
      const start = cored;
      for (let i = 0; i < count; i++) {
        const draw = random.uniform();
        const room = end - cored;
        let gap = 0.002 * random.uniform();
        let topBreak: 'fits' | 'loss' | 'unsure' = 'fits';
        let loss: number | undefined;
        if (draw > 0.9) {
          topBreak = 'loss';
          gap = Math.min(0.005 + 0.06 * random.exponential(), room / 4);
          loss = Math.max(0, rounded(gap * lossBias + (0.002 + 0.4 * gap) * error() * 0.95, 0.001));
        } else if (draw > 0.7) {
          topBreak = 'unsure';
          gap = Math.min(gapMean * random.exponential(), room / 4);
        }
        const pieceTop = cored + gap;
        const pieceEnd = i === count - 1 ? end : Math.max(start + (end - start) * cuts[i], pieceTop + 0.01);
        const truly = pieceEnd - pieceTop;
        const sd = depth > 60 ? 0.003 : 0.005;
        const length = Math.max(0.001, rounded(truly / (1 + tapeScale) - bias + sd * error(), 0.001));
        top.push(pieceTop);
        bottom.push(pieceEnd);
        pieces.push({
          id: `${id}-${i + 1}`,
          run: id,
          length,
          topBreak,
          ...(loss === undefined ? {} : { loss }),
        });
        cored = pieceEnd;
      }
    }
    // what the next run, and a sounding before it, will touch
    fill = fillMean * random.exponential() + (leftIn && random.uniform() < 0.3 ? 0.3 * random.uniform() : 0);
    if (every > 0 && r % every === 0) {
      const sd = 0.03 + 0.0002 * depth;
      soundings.push({ id: `s${r}`, afterRun: id, depth: rounded(depth - fill + sd * error(), 0.01), sd });
    }
  }
  return { readings: { runs, pieces, soundings }, truth: { hole, top, bottom, cableScale, tapeScale } };
};
