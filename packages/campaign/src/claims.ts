import { compareEntries, type Entry } from '@firnbook/journal';
import type { ParsedReading } from './reading.ts';
import type { ReadingView, StruckReading } from './view.ts';

/** One entry's word on one field of one thing. Never removed; struck when a later word names it (J3). */
export interface Claim {
  readonly field: string;
  /** As typed. */
  readonly text: string;
  /** Null where this build cannot read the text: it is shown as it is and counts in no number. */
  readonly parsed: ParsedReading | null;
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

/** Whether two claims say the same, whatever the unit or the decimal sign they were typed with. */
function agree(a: Claim, b: Claim): boolean {
  if (a.parsed === null || b.parsed === null) return a.text.trim() === b.text.trim();
  if (a.parsed.value !== null && b.parsed.value !== null)
    return Math.abs(a.parsed.value - b.parsed.value) < 1e-9;
  return a.parsed.word === b.parsed.word;
}

/**
 * The field as people see it: the last standing claim counts, the others stand against it or agree.
 *
 * @param claims of one field of one thing, at least one
 */
export function readingView(claims: readonly Claim[]): ReadingView {
  const { standing, struck } = weigh(claims);
  const shown = standing.at(-1) ?? struck.at(-1)!.claim;
  const others = standing.filter((claim) => claim !== shown);
  const agreeing = others.filter((claim) => agree(claim, shown)).map((claim) => claim.source.header.id);
  const view = shownAs(
    shown,
    struck.map(({ claim, by }) => other(claim, by.source.header.reason)),
    others.filter((claim) => !agree(claim, shown)).map((claim) => other(claim, claim.source.header.reason)),
  );
  return agreeing.length === 0 ? view : { ...view, agreeing };
}

/** The field as people see it where one entry alone says it. */
export const onlyReading = (claim: Claim): ReadingView => shownAs(claim, none, none);

/** One for all: a season has hundreds of thousands of empty lists. */
const none: readonly never[] = [];

function shownAs(
  claim: Claim,
  struck: readonly StruckReading[],
  against: readonly StruckReading[],
): ReadingView {
  const { id, by, observedAt } = claim.source.header;
  const value = claim.parsed?.value ?? null;
  return { field: claim.field, text: textOf(claim), value, entry: id, by, at: observedAt, struck, against };
}

function other(claim: Claim, reason: string | undefined): StruckReading {
  return {
    text: textOf(claim),
    value: claim.parsed?.value ?? null,
    entry: claim.source.header.id,
    by: claim.source.header.by,
    at: claim.source.header.observedAt,
    ...(reason === undefined ? {} : { reason }),
  };
}

/** A word of a list is shown as the list writes it. */
const textOf = (claim: Claim): string => claim.parsed?.word ?? claim.text;
