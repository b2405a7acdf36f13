import { canonical } from './canonical.ts';
import { hear } from './clock.ts';
import type { Draft, Entry } from './entry.ts';
import { newSalt, type Source } from './ids.ts';
import type { Ledger } from './ledger.ts';
import type { Rules } from './rules.ts';
import { seal } from './seal.ts';

export interface PenOptions extends Source {
  readonly rules: Pick<Rules, 'stamp' | 'tip'>;
  readonly campaign: string;
  readonly device: string;
  readonly ledger: Ledger;
  /** Milliseconds by which this device's clock was ahead of the last peer's. */
  readonly clockOff: number;
  /** Key that what is written will be signed with, where the chain has not stated it yet. */
  readonly key?: string;
  /** Entries about to be stored with what is written, by hash; what is written is added. */
  readonly beside: Map<string, Entry>;
}

export interface Pen {
  /**
   * Seal drafts one after the other, all or none. A draft whose id is already held with the same body is answered
   * with that entry.
   *
   * @throws TypeError, RangeError where one cannot be sealed; nothing has changed then
   */
  write(drafts: readonly Draft[]): readonly Entry[];
  /** Whether this device has an entry, now or from before. */
  hasWritten(): boolean;
}

/** Clocks nearer than this count as agreeing: the way of a message takes time too. */
const CLOCKS_AGREE = 5_000;

/** Writes the next entries of one device's chain, as part of one append. */
export function createPen(options: PenOptions): Pen {
  const { rules, campaign, device, ledger, beside } = options;
  const off = Math.round(options.clockOff);
  const clock = Math.abs(off) < CLOCKS_AGREE ? {} : { clockOff: off };
  const key = options.key === undefined ? {} : { key: options.key };
  let hasStated = options.key === undefined;
  let tip = rules.tip(ledger, device);
  let latest = ledger.latest;
  const ids = new Map<string, Entry>();
  for (const entry of beside.values()) {
    latest = hear(latest, entry.header.stamp);
    ids.set(entry.header.id, entry);
  }

  return {
    hasWritten: () => tip !== undefined,
    write(drafts) {
      const made: Entry[] = [];
      const written = drafts.map((draft) => {
        const { id } = draft;
        const before = ledger.byId(id) ?? ids.get(id) ?? made.find((entry) => entry.header.id === id);
        if (before !== undefined) return sameOrThrow(before, draft);
        const last = made.at(-1) ?? tip;
        const stamp = rules.stamp(made.at(-1)?.header.stamp ?? latest, options.now(), last);
        const sequence = (last?.header.sequence ?? 0) + 1;
        const previous = last?.hash ?? null;
        const stating = made.length > 0 || hasStated ? {} : key;
        const place = {
          campaign,
          device,
          sequence,
          previous,
          stamp,
          salt: newSalt(options),
          ...clock,
          ...stating,
        };
        const entry = seal(draft, place);
        made.push(entry);
        return entry;
      });
      for (const entry of made) {
        beside.set(entry.hash, entry);
        ids.set(entry.header.id, entry);
        latest = hear(latest, entry.header.stamp);
      }
      tip = made.at(-1) ?? tip;
      hasStated ||= made.length > 0;
      return written;
    },
  };
}

/** One id, one content, for ever (I2). */
function sameOrThrow(before: Entry, draft: Draft): Entry {
  const isSame = before.header.kind === draft.kind && canonical(before.body) === canonical(draft.body);
  if (isSame) return before;
  throw new RangeError(`The id ${draft.id} already names another entry: make a new id for this draft.`);
}
