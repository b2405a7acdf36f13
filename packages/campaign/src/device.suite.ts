import { type Draft, type Entry, FIRST_STAMP, hashText, seal, tick } from '@firnbook/journal';
import { type Book, createBook } from './book.ts';
import type { Command, Decision, Doubt, Readings, Refusal } from './command.ts';

/** A device of the tests: seals what its book decides, one chain, one clock. Names and salts are counted. */
export interface Device {
  readonly name: string;
  readonly book: Book;
  readonly written: Entry[];
  me: string;
  /** When the person says that it was seen. */
  at: string;
  /** The id of what was logged. Throws where the command is refused. */
  do(command: Command): string;
  log(kind: string, readings: Readings, hole?: string, run?: string): string;
  decide(command: Command): Decision;
  doubts(command: Command): readonly Doubt[];
  refusals(command: Command): readonly Refusal[];
  /** Any draft, hostile ones too. */
  write(draft: Partial<Draft> & Pick<Draft, 'kind' | 'body'>): Entry;
  hear(...others: readonly Device[]): void;
}

let counted = 0;
const id = (): string => `00000000-0000-7000-8000-${String(++counted).padStart(12, '0')}`;

/** @param now wall clock in ms; a device of the same time orders after the ones written before it heard of */
export function device(name: string, now = 1_780_000_000_000): Device {
  const book = createBook();
  const written: Entry[] = [];
  let latest = FIRST_STAMP;
  const put = (drafts: readonly Draft[]): readonly Entry[] => {
    const entries = drafts.map((draft) => {
      latest = tick(latest, now + written.length * 60_000);
      const entry = seal(draft, {
        campaign: 'c',
        device: name,
        sequence: written.length + 1,
        previous: written.at(-1)?.hash ?? null,
        stamp: latest,
        salt: hashText(draft.id).slice(0, 32),
      });
      written.push(entry);
      return entry;
    });
    book.add(entries);
    return entries;
  };
  const self: Device = {
    name,
    book,
    written,
    me: 'person',
    at: '2026-06-14T09:30:00+05:45',
    decide: (command) => book.decide(command, { by: self.me, observedAt: self.at, newId: id }),
    do(command) {
      const decision = self.decide(command);
      if (!decision.ok) throw new Error(JSON.stringify(decision.refusals));
      return put(decision.drafts)[0]!.header.id;
    },
    log: (kind, readings, hole, run) =>
      self.do({
        do: 'log',
        kind,
        readings,
        ...(hole === undefined ? {} : { hole }),
        ...(run === undefined ? {} : { run }),
      }),
    doubts(command) {
      const decision = self.decide(command);
      return decision.ok ? decision.doubts : [];
    },
    refusals(command) {
      const decision = self.decide(command);
      return decision.ok ? [] : decision.refusals;
    },
    write(draft) {
      const whole = { id: id(), version: 1, observedAt: '2026-06-14T10:00:00Z', by: self.me, ...draft };
      return put([whole])[0]!;
    },
    hear(...others) {
      for (const other of others) {
        book.add(other.written);
        for (const entry of other.written) if (entry.header.stamp > latest) latest = entry.header.stamp;
      }
    },
  };
  return self;
}

/** An open campaign with hole B and a zero. */
export function opened(name: string): { readonly phone: Device; readonly hole: string } {
  const phone = device(name);
  phone.me = '';
  phone.do({
    do: 'open campaign',
    readings: { name: 'Ceredin Saddle', invented: 'yes' },
    crew: [{ initials: 'HN' }, { initials: 'KT' }],
  });
  phone.me = phone.book.view().people[0]!.id;
  const hole = phone.log('hole', { letter: 'B', core: 'CER-B' });
  phone.log('zero', { surface: 'snow surface' }, hole);
  return { phone, hole };
}
