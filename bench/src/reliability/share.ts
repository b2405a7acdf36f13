/** share.ts KIND PLAN: does one share of a part's work, so that every core has one; prints what came of it as JSON. */
import { cutExt4 } from './ext4.ts';
import { sweepErrors } from './io-errors.ts';
import { killInRounds } from './kill-rounds.ts';
import { cutThePower } from './power-cut.ts';
import { tryRealParts } from './real-parts.ts';

const kinds = {
  'ext4 power cuts': cutExt4,
  'I/O errors': sweepErrors,
  kills: killInRounds,
  'power-cut states': cutThePower,
  'real parts': tryRealParts,
} as const;

export type Kinds = typeof kinds;

const [kind = '', plan = ''] = process.argv.slice(2);
process.stdout.write(JSON.stringify(await kinds[kind as keyof Kinds](JSON.parse(plan))));
