import { type Book, createBook } from '@firnbook/campaign';
import { type Draft, type Entry, FIRST_STAMP, hashText, seal, tick } from '@firnbook/journal';

/** An invented campaign for tests, as one device writes it. Ids are counted. */
export interface TestBook {
  readonly entries: Entry[];
  readonly book: Book;
  readonly hole: string;
  readonly me: string;
  newId(): string;
  write(drafts: readonly Draft[]): void;
  /** The id of what was logged. */
  log(kind: string, readings: Readonly<Record<string, string>>): string;
  correct(thing: string, readings: Readonly<Record<string, string>>, reason: string): void;
  withdraw(thing: string): void;
}

export const ceredin = (): TestBook => {
  const book = createBook();
  const entries: Entry[] = [];
  let count = 0;
  let stamp = FIRST_STAMP;
  const newId = (): string => `00000000-0000-7000-9000-${String(++count).padStart(12, '0')}`;
  const write = (drafts: readonly Draft[]): void => {
    for (const draft of drafts) {
      stamp = tick(stamp, 0);
      const place = {
        campaign: 'ceredin-saddle',
        device: 'bench',
        sequence: entries.length + 1,
        previous: entries.at(-1)?.hash ?? null,
        stamp,
        salt: hashText(draft.id).slice(0, 32),
      };
      entries.push(seal(draft, place));
    }
    book.add(entries.slice(-drafts.length));
  };
  let me = '';
  const say = (command: Parameters<Book['decide']>[0]): string => {
    const decision = book.decide(command, { by: me, observedAt: '2026-06-11T09:00:00+05:45', newId });
    if (!decision.ok) throw new Error(JSON.stringify(decision.refusals));
    write(decision.drafts);
    return decision.drafts[0]!.id;
  };
  say({
    do: 'open campaign',
    readings: { name: 'Ceredin Saddle', invented: 'yes' },
    crew: [{ initials: 'KM' }],
  });
  me = book.view().people[0]!.id;
  const hole = say({ do: 'log', kind: 'hole', readings: { letter: 'B', core: 'CER-B' } });
  say({ do: 'log', kind: 'zero', hole, readings: { surface: 'snow surface' } });
  return {
    entries,
    book,
    hole,
    me,
    newId,
    write,
    log: (kind, readings) => say({ do: 'log', kind, hole, readings }),
    correct: (thing, readings, reason) => void say({ do: 'correct', thing, readings, reason }),
    withdraw: (thing) => void say({ do: 'withdraw', thing, reason: 'not a run at all' }),
  };
};
