import { type Book, createBook } from '@firnbook/campaign';
import { createMemoryDisk, createMemoryStore, type Draft, openReplica } from '@firnbook/journal';
import { describe, expect, it } from 'vitest';
import { createReader } from './reader.ts';
import type { Answers, Task, Wish } from './task.ts';

const source = {
  now: () => Date.parse('2026-06-20T09:00:00Z'),
  randomBytes: (length: number) => crypto.getRandomValues(new Uint8Array(length)),
};

/** An invented campaign with hole B, and a reader beside it. */
async function table(text: string | Uint8Array<ArrayBuffer>, name = 'core log.csv') {
  const replica = await openReplica(createMemoryStore('c', createMemoryDisk('life')), source);
  const book: Book = createBook();
  replica.subscribe((added) => void book.add(added));
  let ids = 0;
  const newId = () => `00000000-0000-7000-8000-${String(++ids).padStart(12, '0')}`;
  const write = (drafts: readonly Draft[]) => replica.write(drafts);
  const say = async (command: Parameters<Book['decide']>[0], by: string) => {
    const decision = book.decide(command, { by, observedAt: '2026-06-11T09:00:00+05:45', newId });
    if (!decision.ok) throw new Error(JSON.stringify(decision.refusals));
    await write(decision.drafts);
    return decision.drafts;
  };
  const opened = await say(
    {
      do: 'open campaign',
      readings: { name: 'Ceredin Saddle', invented: 'yes' },
      crew: [{ initials: 'KM' }],
    },
    '',
  );
  const by = opened[1]!.id;
  const [hole] = await say({ do: 'log', kind: 'hole', readings: { letter: 'B' } }, by);
  const reader = createReader(source);
  const ask = async <Do extends Task['do']>(
    task: Extract<Task, { readonly do: Do }>,
  ): Promise<Answers[Do]> => {
    const answer = await reader.answer(task);
    if (!answer.ok) throw new Error(JSON.stringify(answer.trouble));
    return answer.answer as Answers[Do];
  };
  const read = () => ask({ do: 'read', file: new File([text], name) });
  const wish = (mapping: Wish['mapping']): Wish => ({
    mapping,
    entries: replica.ledger.entries(),
    hole: hole!.id,
    by,
    correct: null,
  });
  const look = (mapping: Wish['mapping'] = null, take?: Wish['take']) =>
    ask({ do: 'look', ...wish(mapping), ...(take !== undefined && { take }) });
  const decide = (mapping: NonNullable<Wish['mapping']>) =>
    ask({
      do: 'decide',
      ...wish(mapping),
      sha256: 'a'.repeat(64),
      observedAt: '2026-06-20T09:00:00+05:45',
    });
  return { book, reader, read, look, decide, write };
}

const runs = `Run;Depth from (m);Depth to (m);Date
1;0,00;0,92;2026-06-14
2;0,92;1,80;2026-06-14
3;1,90;2,70;2026-06-14
`;

describe('createReader', () => {
  it('shows tables with their columns, places and first cells, and no other cell', async () => {
    const { read } = await table(runs);
    const [shown] = await read();
    expect(shown).toMatchObject({ sheet: null, headerRow: 1, rows: 3 });
    expect(shown!.columns[1]).toMatchObject({
      place: '2',
      unit: 'm',
      samples: ['0,00', '0,92', '1,90'],
      hasBlanks: false,
    });
  });

  it('asks for the clock, takes it as it was typed, and counts what would be logged and what does not close', async () => {
    const { read, look } = await table(runs);
    await read();
    const open = await look();
    expect(open.questions.map(({ about }) => about)).toEqual(['offset']);
    expect(open.counts).toEqual([{ kind: 'run', status: 'new', count: 3 }]);
    expect(open.closures[0]!.misfits.first).toMatchObject([{ what: 'gap', row: 4, against: 3 }]);
    expect(open.closures[0]!.misfits.first[0]!.size).toBeCloseTo(0.1, 9);
    const wrong = await look({ ...open.mapping, offset: 'noon' });
    expect(wrong.questions.map(({ about }) => about)).toEqual(['offset']);
    const said = await look({ ...open.mapping, offset: 'UTC+5:45' });
    expect(said.questions).toEqual([]);
    expect(said.rows[0]).toMatchObject({ kind: 'run', number: '1', at: '2026-06-14T12:00:00+05:45' });
  });

  it('decides the import and its rows; what is written is known the next time', async () => {
    const { read, look, decide, write, book } = await table(runs);
    await read();
    const { mapping } = await look();
    const decided = await decide({ ...mapping, offset: '+05:45' });
    if (!decided.ok) throw new Error(JSON.stringify(decided.refusals));
    expect(decided.drafts.map(({ kind }) => kind)).toEqual([
      'import.logged',
      'run.logged',
      'run.logged',
      'run.logged',
    ]);
    expect(decided.rows).toBe(3);
    await write(decided.drafts);
    expect(book.view().holes[0]!.runs.map(({ number }) => number)).toEqual([1, 2, 3]);
    const again = await look();
    expect(again).toMatchObject({ writes: 0, known: 3, remembered: [0], questions: [] });
    expect(await decide(again.mapping)).toMatchObject({ ok: true, drafts: [] });
  });

  it('after a stop the same file brings in the rest', async () => {
    const { read, look, decide, write } = await table(runs);
    await read();
    const { mapping } = await look();
    const said = { ...mapping, offset: '+05:45' };
    const decided = await decide(said);
    if (!decided.ok) throw new Error(JSON.stringify(decided.refusals));
    await write(decided.drafts.slice(0, 2));
    expect(await look(said)).toMatchObject({ writes: 2, known: 1 });
  });

  it('names what cannot be read by line and column, and holds its row back', async () => {
    const { read, look } = await table(runs.replace('1,80', 'l,80'));
    await read();
    const shown = await look();
    expect(shown.unread.first).toMatchObject([{ sheet: null, row: 3, column: '3', header: 'Depth to (m)' }]);
    expect(shown.counts).toEqual([{ kind: 'run', status: 'new', count: 2 }]);
  });

  it('proposes the columns anew for the kind that a person names', async () => {
    const { read, look } = await table('A;B\n1;x\n2;y\n');
    await read();
    const { mapping } = await look();
    expect(mapping.tables[0]!.things).toEqual([]);
    const taken = await look(mapping, { table: 0, kind: 'weather' });
    expect(taken.mapping.tables[0]!.things.map(({ kind }) => kind)).toEqual(['weather']);
  });

  it('answers a file that is no table, and one that is too large, in words', async () => {
    const { reader } = await table('');
    expect(await reader.answer({ do: 'read', file: new File([''], 'empty.csv') })).toMatchObject({
      ok: false,
      trouble: { is: 'said', what: 'the file is empty' },
    });
    const huge = Object.defineProperty(new File(['x'], 'huge.csv'), 'size', { value: 2 ** 40 });
    expect(await reader.answer({ do: 'read', file: huge })).toEqual({
      ok: false,
      trouble: { is: 'too large', megabytes: 64 },
    });
  });
});
