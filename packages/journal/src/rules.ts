import { tick } from './clock.ts';
import { coverageOf, haveOf } from './coverage.ts';
import type { Entry } from './entry.ts';
import { admit, offer } from './exchange.ts';
import type { Ledger } from './ledger.ts';
import { wholeOf } from './said.ts';
import { open } from './seal.ts';
import { prove } from './signature.ts';

/**
 * The pure decisions a replica is made of. One record, so that the simulator can run the very same replica with
 * one of them broken and show that its checks notice (simulation/mutants.ts).
 */
export interface Rules {
  readonly open: typeof open;
  readonly admit: typeof admit;
  readonly prove: typeof prove;
  readonly haveOf: typeof haveOf;
  readonly wholeOf: typeof wholeOf;
  readonly coverageOf: typeof coverageOf;
  readonly offer: typeof offer;
  /** Stamp of the device's next entry. */
  readonly stamp: (latest: string, now: number, tip: Entry | undefined) => string;
  /** The entry that the device's next one follows. */
  readonly tip: (ledger: Ledger, device: string) => Entry | undefined;
}

export const RULES: Rules = {
  open,
  admit,
  prove,
  haveOf,
  wholeOf,
  coverageOf,
  offer,
  stamp: (latest, now) => tick(latest, now),
  tip: (ledger, device) => ledger.tip(device),
};
