import { compareEntries, type Entry, type JsonObject } from '@firnbook/journal';
import { ADDED, apply } from '../apply.ts';
import type { Kind } from '../kind.ts';
import { fieldOf, kindLoggedBy } from '../kinds.ts';
import { campaignKind, personKind } from '../setup/schema.ts';
import { readingsOf, textIn } from '../thing-view.ts';
import { CAMPAIGN_THREAD, emptyThread, rootOf, rootsOf, type ThreadState } from '../thread.ts';
import type { CampaignRights, Rights } from '../view.ts';
import { nothingSaid, rightsIn } from './rights.ts';
import { settledRightKind } from './schema.ts';
import { entriesNamed, fieldsSaid, isLink, rightUsed, subjectOf } from './subject.ts';

/** What holds from the entry on that changed it. */
export interface RightsStep {
  readonly after: Entry;
  readonly rights: CampaignRights;
}

/** Rights over the whole of a journal, in its total order. */
export interface RightsTimeline {
  /** In order. Before the first one everybody may do everything. */
  readonly steps: readonly RightsStep[];
  /** Entries that were written without the right and that somebody who may sign off lets stand. */
  readonly settled: ReadonlySet<string>;
  /** Changes of rights by somebody who may not: they give nothing until they are let stand. */
  readonly held: ReadonlySet<string>;
}

const concerned: ReadonlySet<Kind> = new Set([campaignKind, personKind, settledRightKind]);

/**
 * Rights as they follow from the campaign's own entries, in total order. Null where nothing was ever said about them:
 * a campaign that does not use them does not pay for them.
 *
 * Rights are given and taken by whoever may sign off at that place of the order. A change by anybody else stands in the
 * record and shows as a conflict, but gives nothing until it is let stand; else whoever lost a right could give it back
 * to themself on a tablet that has not heard of it.
 *
 * @param state of the campaign's thread
 * @param entries of the same thread, in total order
 */
export function rightsTimeline(state: ThreadState, entries: readonly Entry[]): RightsTimeline | null {
  if (!wasEverSaid(state)) return null;
  const own = emptyThread();
  const steps: RightsStep[] = [];
  const settled = new Set<string>();
  const held = new Map<string, Entry>();
  let keepers: ReadonlySet<string> = new Set();

  function step(after: Entry): void {
    const said = rightsSaid(own);
    const having = [...said].filter(([, { signOff }]) => signOff).map(([id]) => id);
    if (having.length > 0) keepers = new Set(having);
    const first = rootsOf(own, campaignKind)[0];
    const campaign = { readings: first === undefined ? {} : readingsOf(first) };
    // Names hold once somebody was named: a campaign in which nobody can sign off could never be put right.
    const byName = textIn(campaign, 'rights') === 'by name' && keepers.size > 0;
    // Two tablets may each take one out until nobody is left: whoever had it last keeps it.
    const kept = having.length > 0 ? [] : [...keepers];
    const people = new Map(said);
    for (const id of kept) people.set(id, { ...(people.get(id) ?? nothingSaid), signOff: true });
    steps.push({ after, rights: { byName, asksPin: textIn(campaign, 'pin') === 'asked', people } });
  }

  function settle(entry: Entry): void {
    for (const id of entriesNamed(entry)) {
      settled.add(id);
      const waited = held.get(id);
      if (waited === undefined) continue;
      held.delete(id);
      apply(own, isLink(waited.header.kind) ? waited : rightsAlone(waited), CAMPAIGN_THREAD);
      step(entry);
    }
  }

  for (const entry of entries) {
    const kind = subjectOf(state, entry)?.kind;
    if (kind === undefined || !concerned.has(kind)) continue;
    const { by, id, kind: word } = entry.header;
    const right = rightUsed(entry, kind);
    const may = rightsIn(steps.at(-1)?.rights, by)[right];
    if (kind === settledRightKind) {
      if (may && !isLink(word) && isStanding(state, id)) settle(entry);
      continue;
    }
    const changes = right === 'signOff' || own.waiting.size > 0;
    if (right !== 'signOff' || may) apply(own, entry, CAMPAIGN_THREAD);
    else {
      held.set(id, entry);
      // Later words may name it all the same, and a person is there whatever they may do.
      if (isLink(word)) own.seen.add(id);
      else apply(own, withoutRights(entry), CAMPAIGN_THREAD);
    }
    if (changes) step(entry);
  }
  return { steps, settled, held: new Set(held.keys()) };
}

/** Index of the step that holds at an entry's place, -1 before the first: what an entry changes holds after it. */
export function stepBefore(steps: readonly RightsStep[], entry: Entry): number {
  let low = 0;
  let high = steps.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (compareEntries(steps[middle]!.after, entry) < 0) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

const wasEverSaid = (state: ThreadState): boolean =>
  rootsOf(state, campaignKind).some((campaign) =>
    [campaign, ...campaign.absorbed].some(({ said }) =>
      said.some(({ readings }) => Object.hasOwn(readings, 'rights') || Object.hasOwn(readings, 'pin')),
    ),
  );

const isStanding = (state: ThreadState, id: string): boolean => rootOf(state, id)?.withdrawals.length === 0;

/** What each person was given, by all their ids. Who is withdrawn can neither change a plan nor sign off. */
function rightsSaid(state: ThreadState): ReadonlyMap<string, Rights> {
  const people = new Map<string, Rights>();
  for (const person of rootsOf(state, personKind)) {
    const readings = readingsOf(person);
    const isHere = [person, ...person.absorbed].some(({ withdrawals }) => withdrawals.length === 0);
    const has = (field: string): boolean => isHere && textIn({ readings }, field) === 'yes';
    const rights = { log: textIn({ readings }, 'log') !== 'no', plan: has('plan'), signOff: has('signOff') };
    for (const { id } of [person, ...person.absorbed]) people.set(id, rights);
  }
  return people;
}

/** The entry that logged a person or the campaign, with or without the fields that give rights. */
const withoutRights = (entry: Entry): Entry => withFields(entry, (isRight) => !isRight);

const rightsAlone = (entry: Entry): Entry => {
  const { header, body } = withFields(entry, (isRight) => isRight);
  return { ...entry, header: { ...header, kind: ADDED, version: 1 }, body: { ...body, thing: header.id } };
};

function withFields(entry: Entry, isWanted: (isRight: boolean) => boolean): Entry {
  const kind = kindLoggedBy(entry.header.kind);
  const readings = entry.body?.readings as JsonObject;
  const wanted = fieldsSaid(entry.body).filter((name) =>
    isWanted((kind && fieldOf(kind, name)?.right) !== undefined),
  );
  const kept = Object.fromEntries(wanted.map((name) => [name, readings[name]!]));
  return { ...entry, body: { ...entry.body, readings: kept } };
}
