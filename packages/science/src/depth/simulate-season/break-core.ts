import type { Random } from '../../random/index.ts';
import type { Conditions } from './conditions.ts';
import { between, gamma2, logNormal, pick } from './draws.ts';
import type { Meeting } from './season.ts';

/** The core of one run and where it lay, metres. */
export interface Core {
  readonly run: string;
  readonly top: number;
  readonly bottom: number;
}

/** A piece as it lay in the hole, how it met the one above, and the ice that is gone between them. */
export interface TruePiece {
  readonly top: number;
  readonly bottom: number;
  readonly gap: number;
  readonly meeting: Meeting;
}

/** Width of the bench saw's cut. */
export const KERF = 0.003;
/** Between two runs the catcher grinds and breaks more than between two pieces of one run. */
const betweenRuns: Readonly<Record<Meeting, number>> = {
  fits: 0.74,
  ground: 0.14,
  lost: 0.12,
  sawn: 0,
  handling: 0,
};
const withinRun: Readonly<Record<Meeting, number>> = {
  fits: 0.78,
  ground: 0.07,
  lost: 0.07,
  sawn: 0.03,
  handling: 0.05,
};
const MOST_LOST = 0.4;
const LEAST_PIECE = 0.01;
/** Shorter core comes up in one piece. */
const LEAST_BROKEN = 0.15;

const gapOf = (random: Random, meeting: Meeting, c: Conditions): number => {
  if (meeting === 'handling') return 0;
  if (meeting === 'sawn') return KERF + 0.0003 * random.normal();
  if (meeting === 'ground') return gamma2(random, c.groundMean);
  if (meeting === 'lost') return Math.min(MOST_LOST, logNormal(random, 0.025, 0.8));
  return gamma2(random, c.crumbs);
};

/** Breaks the core of one run into pieces: where they lay and what is gone between them. */
export const breakCore = (random: Random, core: Core, c: Conditions, mostPieces: number): TruePiece[] => {
  const length = core.bottom - core.top;
  const count = length < LEAST_BROKEN ? 1 : 1 + Math.floor((mostPieces - 0.5) * random.uniform() ** 1.5);
  const cuts = Array.from({ length: count - 1 }, () => between(random, 0.05, 0.95)).sort((a, b) => a - b);
  let cored = core.top;
  return Array.from({ length: count }, (_, i) => {
    const meeting = pick(random, i === 0 ? betweenRuns : withinRun);
    const gap = Math.max(0, Math.min(gapOf(random, meeting, c), (core.bottom - cored) / 4));
    const top = cored + gap;
    const cut = Math.min(core.bottom, Math.max(core.top + length * cuts[i], top + LEAST_PIECE));
    cored = i === count - 1 ? core.bottom : cut;
    return { top, bottom: cored, gap, meeting };
  });
};
