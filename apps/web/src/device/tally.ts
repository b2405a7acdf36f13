import { type Replica, readStamp } from '@firnbook/journal';
import type { Said } from '../texts/say-here.ts';
import type { TextKey } from '../texts/t.ts';
import type { CampState, Rest, Safety } from './book.ts';
import type { SecondMedium } from './second.ts';
import { CAMP } from './talk.ts';

/** What a book knows beside its entries. */
export interface Circumstances {
  /** Entries being written, or whose writing failed. */
  readonly saving: number;
  /** Copies that the store keeps. */
  readonly copies: 1 | 2;
  readonly camp: CampState;
  readonly lacks: readonly TextKey[];
  readonly trouble: Said | null;
  readonly clockDrift: number | null;
  readonly second: SecondMedium;
}

/** Counts what is where, from the entries held and what the camp computer last told (rule I9). */
export function tally(replica: Replica, circumstances: Circumstances): Safety {
  const { ledger } = replica;
  const there = replica.safety(CAMP);
  const missing = there.missing();
  const { saving, copies, camp, lacks, trouble, clockDrift, second } = circumstances;
  const onSticks = second.of(ledger);
  const of = (id: string): Rest => {
    const entry = ledger.byId(id);
    if (entry === undefined) return 'saving';
    if (there.holds(entry)) return onSticks?.holds(entry) ? 'second' : 'camp';
    return copies === 2 ? 'tablet' : 'once';
  };
  return {
    total: ledger.size + saving,
    onTablet: ledger.size,
    copies,
    onCamp: ledger.size - missing.length,
    onlyHere: missing.length,
    oldestOnlyHere: missing[0] === undefined ? null : timeOf(missing[0].header.stamp),
    campSeen: there.at === null ? null : new Date(there.at).toISOString(),
    camp,
    second: onSticks?.told ?? null,
    lacks,
    trouble,
    cloned: ledger.forks().map((fork) => fork.device),
    of,
    clockDrift,
  };
}

/** Before a book is open: nothing is known, so nothing is claimed. */
export function nothingKnown(lacks: readonly TextKey[], trouble: Said | null): Safety {
  return {
    total: 0,
    onTablet: 0,
    copies: 2,
    onCamp: 0,
    onlyHere: 0,
    oldestOnlyHere: null,
    campSeen: null,
    camp: 'unknown',
    second: null,
    lacks,
    trouble,
    cloned: [],
    of: () => 'saving',
    clockDrift: null,
  };
}

/** A stamp far beyond any calendar (a clock that was wrong on purpose) is shown as the last day there is. */
function timeOf(stamp: string): string {
  return new Date(Math.min(readStamp(stamp).milliseconds, 8.64e15)).toISOString();
}
