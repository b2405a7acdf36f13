import type { Metres, Ratio } from '../units.ts';
import { oneWay } from './analysis-of-variance.ts';
import type { DensityAssumptions } from './assumptions.ts';
import { type PieceReadings, roundDiameter } from './readings.ts';
import { median, robustSd } from './robust.ts';

/** What the diameters of all pieces of one cutter set say together. */
export interface CutterSet {
  readonly name: string;
  readonly pieces: number;
  readonly readings: number;
  readonly mean: Metres;
  /** Standard deviation of the mean, by readings alone. */
  readonly meanSd: Metres;
  /** Of one reading within a piece. */
  readonly readingSd: Metres;
  /** Of true diameters between pieces. */
  readonly pieceSd: Metres;
  /** Error that all of the set share, assumed: no number of readings makes it smaller. */
  readonly sharedSd: Metres;
}

/** Diameter of one piece, its own readings and its set's weighed. */
export interface PieceDiameter {
  readonly value: Metres;
  /** Its own. */
  readonly randomSd: Metres;
  /** In common with all pieces of the set. */
  readonly sharedSd: Metres;
  /** Weight of its own readings; 1 - this is the set's. */
  readonly own: Ratio;
  /** Standard deviation of its own readings, null of fewer than two. */
  readonly spread: Metres | null;
  /** So far from its set that one of the two is wrong: taken as read. */
  readonly isOutlying: boolean;
}

/** Beyond so many standard deviations of its set a piece's diameter is taken as read and kept out of the pool. */
const outlying = 6;

/**
 * Pools diameters over cutter sets: a piece's true diameter is that of its set give or take `pieceSd`, a reading that
 * of its piece give or take `readingSd`; both are estimated by analysis of variance from first guesses that weigh as
 * `guessWorth` readings. Best linear prediction (C. R. Henderson 1975, Biometrics 31, 423-447; from memory):
 * d = own mean_i + (1 - own) mean_set, own = pieceSd^2/(pieceSd^2 + readingSd^2/n_i).
 *
 * The random error of each piece shrinks; what is shared stays, and the error of the set's mean, as far as it is used,
 * goes to the shared part.
 *
 * @param pieces of one hole or of several
 * @returns sets by name; diameters in the order of `pieces`, null where its set has no reading at all
 */
export const poolDiameters = (
  pieces: readonly Pick<PieceReadings, 'cutterSet' | 'diameters'>[],
  assumed: DensityAssumptions,
): {
  readonly sets: ReadonlyMap<string, CutterSet>;
  readonly diameters: readonly (PieceDiameter | null)[];
} => {
  const sets = new Map<string, CutterSet>();
  for (const name of new Set(pieces.map(({ cutterSet }) => cutterSet))) {
    const groups = pieces
      .filter(({ cutterSet, diameters }) => cutterSet === name && diameters.length > 0)
      .map(({ diameters }) => diameters.map(roundDiameter));
    if (groups.length > 0) sets.set(name, pooled(name, groups, assumed));
  }
  const diameters = pieces.map(({ cutterSet, diameters }) => {
    const set = sets.get(cutterSet);
    return set === undefined ? null : weighed(diameters.map(roundDiameter), set);
  });
  return { sets, diameters };
};

const mean = (values: readonly number[]) => values.reduce((sum, x) => sum + x, 0) / values.length;

const pooled = (name: string, groups: readonly (readonly number[])[], a: DensityAssumptions): CutterSet => {
  const middle = median(groups.map(mean));
  const usual = Math.max(robustSd(groups.map(mean), middle), Math.hypot(a.diameterSd, a.pieceDiameterSd));
  const near = groups.filter((group) => group.every((x) => Math.abs(x - middle) <= outlying * usual));
  const kept = near.length > 0 ? near : groups;
  const { within, withinDegrees, betweenDegrees, meanSquare, size } = oneWay(kept);
  const weigh = (guess: number, found: number, degrees: number) =>
    (a.guessWorth * guess + (degrees > 0 ? degrees * found : 0)) / (a.guessWorth + Math.max(0, degrees));
  const readingVariance = weigh(a.diameterSd ** 2, within, withinDegrees);
  const pieceVariance = weigh(
    a.pieceDiameterSd ** 2,
    Math.max(0, (meanSquare - readingVariance) / size),
    betweenDegrees,
  );
  const weights = kept.map((group) => 1 / (pieceVariance + readingVariance / group.length));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return {
    name,
    pieces: groups.length,
    readings: groups.reduce((sum, group) => sum + group.length, 0),
    mean: kept.reduce((sum, group, i) => sum + weights[i] * mean(group), 0) / total,
    meanSd: Math.sqrt(1 / total),
    readingSd: Math.sqrt(readingVariance),
    pieceSd: Math.sqrt(pieceVariance),
    sharedSd: a.sharedDiameterSd,
  };
};

const weighed = (readings: readonly number[], set: CutterSet): PieceDiameter => {
  const { pieceSd, readingSd, sharedSd, meanSd } = set;
  const n = readings.length;
  if (n === 0)
    return {
      value: set.mean,
      randomSd: pieceSd,
      sharedSd: Math.hypot(sharedSd, meanSd),
      own: 0,
      spread: null,
      isOutlying: false,
    };
  const far = outlying * Math.hypot(pieceSd, readingSd);
  const isOutlying = readings.some((x) => Math.abs(x - set.mean) > far);
  const own = isOutlying ? 1 : pieceSd ** 2 / (pieceSd ** 2 + readingSd ** 2 / n);
  return {
    value: own * mean(readings) + (1 - own) * set.mean,
    randomSd: Math.sqrt((own * readingSd ** 2) / n),
    sharedSd: Math.hypot(sharedSd, (1 - own) * meanSd),
    own,
    spread:
      n < 2 ? null : Math.sqrt(readings.reduce((sum, x) => sum + (x - mean(readings)) ** 2, 0) / (n - 1)),
    isOutlying,
  };
};
