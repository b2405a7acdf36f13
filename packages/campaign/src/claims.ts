import { compareEntries, type Entry } from '@firnbook/journal';
import type { Field } from './kind.ts';
import { lengthsIn } from './reading.ts';
import type { ReadingView, StruckReading } from './view.ts';

/** What one entry says about one thing. Never removed; a reading is struck when a later word names its entry (J3). */
export interface Said {
  readonly source: Entry;
  /**
   * By field, each as people see it where nobody else says that field. Nearly every reading is said once, so what
   * is made here once is what every view shows.
   */
  readonly readings: Readonly<Record<string, ReadingView>>;
  /** Fields whose text this build cannot read: shown as it is, counts in no number and no name. */
  readonly unread: readonly string[];
}

/** One entry's word on one field. */
interface Claim {
  readonly reading: ReadingView;
  readonly source: Entry;
}

/** A struck claim and the claim that struck it. */
interface Struck {
  readonly claim: Claim;
  readonly by: Claim;
}

/**
 * Which claims of one field of one thing stand. A claim is struck when another one on the same field names its
 * entry in `corrects`; links decide, clocks only break ties (J3).
 */
function weigh(claims: readonly Claim[]): {
  readonly standing: readonly Claim[];
  readonly struck: readonly Struck[];
} {
  const ordered = [...claims].sort((a, b) => compareEntries(a.source, b.source));
  const strikers = new Map<string, Claim>();
  for (const claim of ordered)
    for (const id of claim.source.header.corrects ?? [])
      if (id !== claim.source.header.id) strikers.set(id, claim);
  const standing: Claim[] = [];
  const struck: Struck[] = [];
  for (const claim of ordered) {
    const by = strikers.get(claim.source.header.id);
    if (by === undefined) standing.push(claim);
    else struck.push({ claim, by });
  }
  return { standing, struck };
}

/** By what two claims of a field are told apart. */
export interface Sameness {
  /** Undefined for one that this version does not know. */
  readonly field: Field | undefined;
  /** Whether two ids are of one thing, after all joins. */
  readonly isOne: (a: string, b: string) => boolean;
}

/** Whether two claims say the same, whatever the unit or the decimal sign they were typed with. */
function agree({ reading: a }: Claim, { reading: b }: Claim, { field, isOne }: Sameness): boolean {
  if (a.value !== null && b.value !== null) {
    if (field?.quantity !== 'lengths') return Math.abs(a.value - b.value) < 1e-9;
    // Several lengths of one mean may be others.
    const [all, others] = [lengthsIn(a.text, field), lengthsIn(b.text, field)];
    return all.length === others.length && all.every((one, at) => Math.abs(one - others[at]!) < 1e-9);
  }
  if (a.value !== b.value) return false;
  return a.text.trim() === b.text.trim() || (field?.quantity === 'thing' && isOne(a.text, b.text));
}

/**
 * The field as people see it: the last standing claim counts, the others stand against it or agree.
 *
 * @param name of the field
 * @param said everything that says it of one thing, at least one
 */
export function readingView(name: string, said: readonly Said[], same: Sameness): ReadingView {
  const { standing, struck } = weigh(
    said.map(({ readings, source }) => ({ reading: readings[name]!, source })),
  );
  const shown = standing.at(-1) ?? struck.at(-1)!.claim;
  const others = standing.filter((claim) => claim !== shown);
  const agreeing = others.filter((claim) => agree(claim, shown, same)).map((claim) => claim.reading.entry);
  const view = {
    ...shown.reading,
    struck: struck.map(({ claim, by }) => other(claim, by.source.header.reason)),
    against: others
      .filter((claim) => !agree(claim, shown, same))
      .map((claim) => other(claim, claim.source.header.reason)),
  };
  return agreeing.length === 0 ? view : { ...view, agreeing };
}

function other({ reading }: Claim, reason: string | undefined): StruckReading {
  const { text, value, entry, by, at } = reading;
  return { text, value, entry, by, at, ...(reason === undefined ? {} : { reason }) };
}
