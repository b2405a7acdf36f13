import { compareEntries, type Entry } from '@firnbook/journal';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createBook } from '../book.ts';
import { device } from '../device.suite.ts';
import { findThing } from '../find.ts';
import { kindLoggedBy, kindOf } from '../kinds.ts';
import { acts, historyOf } from '../random-history.suite.ts';
import type { CampaignView } from '../view.ts';
import { rightsOf } from './rights.ts';
import { rightUsed } from './subject.ts';

/** Whoever changes the seed writes it into a failure's name. */
const seed = Number(process.env.FIRNBOOK_SEED ?? 1506);
const numRuns = Number(process.env.FIRNBOOK_RUNS ?? 12);

const viewOf = (entries: readonly Entry[]): CampaignView => {
  const book = createBook();
  book.add(entries);
  return book.view();
};

/** Entries whose author lacked the right: each held against a book of everything before it, and of nothing else. */
function wrongIn(entries: readonly Entry[], whole: CampaignView): readonly Entry[] {
  return entries.filter((entry, index) => {
    const logged = kindLoggedBy(entry.header.kind);
    const id = logged === undefined ? (entry.body?.thing ?? entry.body?.into) : entry.header.id;
    const thing = typeof id === 'string' ? findThing(whole, id)?.thing : undefined;
    const kind = thing && kindOf(thing.kind);
    if (kind === undefined || (logged !== undefined && logged !== kind)) return false;
    const before = viewOf(entries.slice(0, index));
    return !rightsOf(before, entry.header.by)[rightUsed(entry, kind)];
  });
}

/** What only the whole of a journal tells: a settlement that was withdrawn later, an entry before what it is about. */
function isOddlyOrdered(whole: CampaignView): boolean {
  return (
    whole.waiting! > 0 || (whole.others['settled right'] ?? []).some(({ entries: own }) => own.length > 1)
  );
}

const conflicted = (view: CampaignView): ReadonlySet<string> =>
  new Set(
    [...view.conflicts!, ...view.holes.flatMap(({ conflicts }) => conflicts)].flatMap(
      ({ used }) => used?.entries ?? [],
    ),
  );

describe('rights over a journal', () => {
  it('J3: whoever lacked a right by all that came before is in a conflict until it is settled or undone; nobody else is', {
    timeout: 4000 * numRuns,
  }, () => {
    let [wrong, shown, looked] = [0, 0, 0];
    fc.assert(
      fc.property(acts(70), (said) => {
        const entries = historyOf(said);
        const whole = viewOf(entries);
        if (whole.rights === undefined || isOddlyOrdered(whole)) return;
        looked += 1;
        const expected = wrongIn(entries, whole);
        const found = conflicted(whole);
        wrong += expected.length;
        shown += found.size;
        const ids = new Set(expected.map(({ header }) => header.id));
        expect([...found].filter((id) => !ids.has(id))).toEqual([]);
        const settled = (whole.others['settled right'] ?? [])
          .map(({ readings }) => readings.entries?.text ?? '')
          .join(' ');
        for (const { header, body } of expected) {
          if (found.has(header.id) || settled.includes(header.id)) continue;
          // Undone: the thing is withdrawn, or what it said was said anew or brought back.
          const about = findThing(whole, String(body?.thing ?? body?.into ?? header.id));
          const later = entries.some(({ header: { corrects } }) => corrects?.includes(header.id));
          expect(about?.thing.withdrawn !== null || later).toBe(true);
        }
      }),
      { seed, numRuns },
    );
    expect(looked).toBeGreaterThan(numRuns / 4);
    expect(wrong).toBeGreaterThan(numRuns);
    expect(shown).toBeGreaterThan(numRuns / 2);
  });

  it('J5: whatever a hostile device says of rights, a view comes out and somebody can sign off', () => {
    const texts = ['by name', 'yes', 'no', 'maybe', '', 'constructor', '__proto__'];
    const kinds = ['person.logged', 'campaign.opened', 'right.settled', 'reading.corrected', 'reading.added'];
    const more = ['thing.withdrawn', 'thing.restored', 'things.joined'];
    const word = fc.constantFrom(...texts);
    const one = fc.record({
      kind: fc.constantFrom(...kinds, ...more),
      about: fc.nat({ max: 9 }),
      other: fc.nat({ max: 9 }),
      by: fc.nat({ max: 3 }),
      corrects: fc.nat({ max: 12 }),
      readings: fc.oneof(
        fc.record({ rights: word, pin: word, log: word, plan: word, signOff: word }, { requiredKeys: [] }),
        fc.constant([1, 'yes']),
        fc.constant(null),
      ),
    });
    fc.assert(
      fc.property(fc.array(one, { maxLength: 25 }), (said) => {
        const far = device('far');
        far.do({
          do: 'open campaign',
          readings: { name: 'x' },
          crew: [{ initials: 'HN' }, { initials: 'KT' }],
        });
        const ids = far.written.map(({ header }) => header.id);
        for (const { kind, about, other, by, corrects, readings } of said) {
          far.me = ids[by] ?? 'nobody';
          const [thing, from] = [ids[about % ids.length]!, ids[other % ids.length]!];
          const named = corrects < ids.length ? { corrects: [ids[corrects]!] } : {};
          const entries = typeof readings === 'object' && readings !== null ? { entries: ids.join(' ') } : {};
          const body = {
            thing,
            into: thing,
            from,
            readings: Array.isArray(readings) ? readings : readings && { ...readings, ...entries },
          };
          ids.push(far.write({ kind, body: body as never, reason: 'r', ...named }).header.id);
        }
        const entries = [...far.written].sort(compareEntries);
        const view = viewOf(entries);
        const { people } = view;
        expect(people.some(({ id }) => rightsOf(view, id).signOff)).toBe(true);
        expect(viewOf([...entries].reverse())).toEqual(view);
      }),
      { seed, numRuns: numRuns * 8 },
    );
  });
});
