import type { Share, Tally } from './tally.ts';

/** One promise, its figure, and whether it is kept. */
export interface Goal {
  readonly what: string;
  readonly figure: string;
  readonly goal: string;
  readonly isMet: boolean;
}

/** "Clearly below": at most half. */
const CLEARLY = 0.5;
/** Power at the detectable size is 80 % by its definition; at twice that size a slip is plain. */
const POWER = 0.8;
const PLAIN = 0.99;
export const COVERAGE = { least: 0.93, most: 0.97 } as const;
export const FALSE_FLAGS = 1;

const percent = (value: number, digits = 1): string => `${(100 * value).toFixed(digits)} %`;
const centimetres = (value: number): string => `${(100 * value).toFixed(2)} cm`;

const covered = (what: string, { share, error }: Share): Goal => ({
  what: `95 % intervals hold the true ${what}`,
  figure: `${percent(share)} (± ${percent(error)})`,
  goal: '93 to 97 %',
  isMet: share >= COVERAGE.least && share <= COVERAGE.most,
});

const below = (what: string, value: number, limit: number, goal: string): Goal => ({
  what,
  figure: `${centimetres(value)} of ${centimetres(limit)}`,
  goal,
  isMet: goal.startsWith('not above') ? value <= limit : value <= CLEARLY * limit,
});

const flagged = (what: string, { made, found }: Tally['plain'], least: number): Goal => ({
  what,
  figure: made === 0 ? 'none made' : `${found} of ${made}, ${percent(found / made)}`,
  goal: `${percent(least, 0)} or more`,
  isMet: made === 0 || found / made >= least,
});

const fewFlags = (what: string, per200: number): Goal => ({
  what,
  figure: per200.toFixed(2),
  goal: `below ${FALSE_FLAGS}`,
  isMet: per200 < FALSE_FLAGS,
});

/** The promises of one way of working (with or without soundings). */
export const goalsOf = ({ clean, slipped, rms, flags, revealable, plain }: Tally): Goal[] => [
  covered('tops', clean.tops),
  covered('bottoms', clean.bottoms),
  covered('hole bottoms', clean.holes),
  covered('tops, slips made', slipped.tops),
  covered('bottoms, slips made', slipped.bottoms),
  covered('hole bottoms, slips made', slipped.holes),
  below('median rms error, of the dense solution', rms.solved, rms.dense, 'not above'),
  below("median rms error, of the logger's sum", rms.solved, rms.logger, 'below half'),
  below("median rms error, of the driller's depth", rms.solved, rms.driller, 'below half'),
  flagged('slips of 10 cm and more above the detectable size, found', revealable, POWER),
  flagged('slips of 10 cm and more above twice that size, found', plain, PLAIN),
  fewFlags('false flags in 200 readings', flags.clean),
  fewFlags('false flags in 200 readings, slips made', flags.slipped),
];
