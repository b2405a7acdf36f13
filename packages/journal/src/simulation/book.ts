import type { Entry } from '../entry.ts';
import { createFold, type Fold } from '../fold.ts';

/** The simulator's own small reading of entries: readings, corrections, conflicts. Just enough to check I4, I7, I8. */
export interface Page {
  /** By the id of the entry that logged the thing: its claims, in the order of folding. */
  readonly things: Map<string, Claim[]>;
  /** Corrections that were folded before an entry they correct: must stay 0 (I4). */
  early: number;
  notUnderstood: number;
}

interface Claim {
  readonly entry: string;
  readonly text: string;
  isSuperseded: boolean;
}

export const SAID = 'sounding.logged';
export const CORRECTED = 'reading.corrected';
export const UNKNOWN = 'aurora.seen';

export function threadsOf(entry: Entry): readonly string[] {
  const hole = entry.body?.hole;
  return [typeof hole === 'string' ? `hole:${hole}` : 'campaign'];
}

export function emptyPage(): Page {
  return { things: new Map(), early: 0, notUnderstood: 0 };
}

export function apply(page: Page, entry: Entry): void {
  const { header, body } = entry;
  const text = String((body?.readings as { value?: unknown } | undefined)?.value);
  const claim: Claim = { entry: header.id, text, isSuperseded: false };
  if (header.kind === SAID) page.things.set(header.id, [claim]);
  else if (header.kind === CORRECTED) {
    const claims = page.things.get(String(body?.thing)) ?? [];
    for (const target of header.corrects ?? []) {
      const corrected = claims.find((one) => one.entry === target);
      if (corrected === undefined) page.early += 1;
      else corrected.isSuperseded = true;
    }
    claims.push(claim);
    page.things.set(String(body?.thing), claims);
  } else page.notUnderstood += 1;
}

export function createBook(): Fold<Page> {
  return createFold<Page>({ threadsOf, initial: emptyPage, apply });
}

/** What counts now; two readings on one thing are a conflict that a person settles. */
export function standing(claims: readonly Claim[]): readonly Claim[] {
  return claims.filter((claim) => !claim.isSuperseded);
}

/** The whole book as text, to compare. */
export function readAloud(pages: Iterable<readonly [string, Page]>): string {
  const lines = [...pages].map(([thread, page]) => {
    const things = [...page.things].map(([id, claims]) => [id, claims]).sort();
    return JSON.stringify([thread, things, page.early, page.notUnderstood]);
  });
  return lines.sort().join('\n');
}
