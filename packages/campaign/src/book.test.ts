import { type Draft, type Entry, type JsonObject, seal } from '@firnbook/journal';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Book, createBook } from './book.ts';
import { device, opened } from './device.suite.ts';

const things = ['h1', 'h2', 'r1', 'r2', 'r3', 'p1', 'p2', 'p3', 'p4', 'z1', 's1'];
const links = ['e1', 'e2', 'e3', 'e4', 'e5', 'e6'];
const natural = new Map([
  ['h', 'hole.logged'],
  ['r', 'run.logged'],
  ['p', 'piece.logged'],
  ['z', 'zero.logged'],
  ['s', 'sounding.logged'],
]);
const texts = fc.constantFrom(
  ...['1', '2', '3', 'B', 'C', '0 m', '0.87 m', '87 cm', 'fits', ' Loss', 'x', '', 'r1', 'r2', 'r3', 'CER-B'],
);
const fields = fc.constantFrom(
  ...['number', 'from', 'to', 'length', 'topBreak', 'run', 'afterRun', 'depth', 'letter', 'core', 'surface'],
  ...['recovered', '__proto__', 'mass', '10'],
);
const said = fc.record({
  id: fc.constantFrom(...things, ...links),
  link: fc.constantFrom('reading.corrected', 'reading.corrected', 'thing.withdrawn', 'things.joined'),
  readings: fc.dictionary(fields, texts, { maxKeys: 4 }),
  hole: fc.constantFrom('h1', 'h1', 'h1', 'h2'),
  run: fc.constantFrom('r1', 'r2', 'r3', null),
  thing: fc.constantFrom(...things),
  pair: fc.constantFrom(['r1', 'r2'], ['r2', 'r3'], ['r3', 'r1'], ['p1', 'p2'], ['p4', 'p1']),
  corrects: fc.array(fc.constantFrom(...things, ...links), { maxLength: 3 }),
  minute: fc.nat(60),
});

/** Everything that can be said about two holes, sense and nonsense, in any order of stamps. Invented. */
const history = fc.array(said, { minLength: 8, maxLength: 40 }).map((list) => {
  const used = new Set<string>();
  return list.map((one, index): Entry => {
    const kind = natural.get(one.id[0]!) ?? one.link;
    const id = used.has(one.id) ? `n${index}` : one.id;
    used.add(id);
    const link: JsonObject =
      one.link === 'things.joined' ? { into: one.pair[0]!, from: one.pair[1]! } : { thing: one.thing };
    const body: JsonObject = {
      ...(kind === 'hole.logged' ? {} : { hole: one.hole }),
      ...(kind === one.link ? link : {}),
      ...(kind === 'piece.logged' && one.run !== null ? { run: one.run } : {}),
      readings: one.readings,
    };
    const draft: Draft = { id, kind, version: 1, observedAt: `${index}`, by: 'x', body };
    return seal(
      { ...draft, corrects: one.corrects, reason: `because of ${index}` },
      {
        campaign: 'c',
        device: 'd',
        sequence: index + 1,
        previous: index === 0 ? null : '0'.repeat(64),
        stamp: `${String(one.minute).padStart(15, '0')}-${String(index).padStart(6, '0')}`,
        salt: '0'.repeat(32),
      },
    );
  });
});

describe('createBook', () => {
  it('add of a campaign, a hole, a run and a piece: view shows them by name', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0,87 m', recovered: 'core' }, hole);
    phone.log('piece', { number: '1', length: '84.0', topBreak: 'Unsure' }, hole, run);
    const view = phone.book.view();
    expect(view).toMatchObject({ id: 'c', name: 'Ceredin Saddle', invented: true });
    expect(view.people.map((one) => one.name)).toEqual(['HN', 'KT']);
    const b = phone.book.holeView(hole)!;
    expect(view.holes).toEqual([b]);
    expect(b).toMatchObject({ letter: 'B', name: 'CER-B', notUnderstood: 0, waiting: 0, conflicts: [] });
    expect(b.zeros[0]!.readings.surface!.text).toBe('snow surface');
    expect(b.runs[0]).toMatchObject({ id: run, name: 'B-R001', number: 1, nothingRecovered: false });
    expect(b.runs[0]!.readings.to).toMatchObject({ text: '0,87 m', value: 0.87, struck: [], against: [] });
    expect(b.runs[0]!.pieces[0]).toMatchObject({ name: 'B-P001.1', run, number: 1 });
    expect(b.runs[0]!.pieces[0]!.readings.length).toMatchObject({ text: '84.0', value: 0.84 });
    expect(b.runs[0]!.pieces[0]!.readings.topBreak).toMatchObject({ text: 'unsure', value: null });
  });
});

describe('views kept from one look to the next', () => {
  it('J1: a book that looks after every few entries shows what one that looks once shows', () => {
    fc.assert(
      fc.property(history, fc.integer({ min: 1, max: 5 }), fc.boolean(), (entries, step, isInOrder) => {
        const arriving = isInOrder
          ? [...entries].sort((a, b) => (a.header.stamp < b.header.stamp ? -1 : 1))
          : entries;
        const looking = createBook();
        for (let at = 0; at < arriving.length; at += step) {
          looking.add(arriving.slice(at, at + step));
          const fresh = createBook();
          fresh.add(arriving.slice(0, at + step));
          expect(JSON.stringify(looking.view())).toBe(JSON.stringify(fresh.view()));
        }
      }),
      { numRuns: 300, seed: 12 },
    );
  });

  it('one more piece: its run is made anew, every other run and piece stays the same object', () => {
    const { phone, hole, runs } = drilled();
    const before = phone.book.holeView(hole)!;
    phone.log('piece', { number: '2', length: '3 cm', topBreak: 'fits' }, hole, runs[1]);
    const after = phone.book.holeView(hole)!;
    expect(after.runs[0]).toBe(before.runs[0]);
    expect(after.runs[2]).toBe(before.runs[2]);
    expect(after.runs[1]).not.toBe(before.runs[1]);
    expect(after.runs[1]!.pieces[0]).toBe(before.runs[1]!.pieces[0]);
    expect(before.runs[1]!.pieces).toHaveLength(1);
    expect(after.zeros[0]).toBe(before.zeros[0]);
  });

  it('a corrected depth of a run leaves its pieces the same objects; a corrected number renames them', () => {
    const { phone, hole, runs } = drilled();
    const before = phone.book.holeView(hole)!.runs[1]!;
    phone.do({ do: 'correct', thing: runs[1]!, readings: { to: '1.75 m' }, reason: 'read again' });
    const deeper = phone.book.holeView(hole)!.runs[1]!;
    expect(deeper.readings.to!.text).toBe('1.75 m');
    expect(deeper.readings.from).toBe(before.readings.from);
    expect(deeper.pieces[0]).toBe(before.pieces[0]);
    phone.do({ do: 'correct', thing: runs[1]!, readings: { number: '7' }, reason: 'miscounted' });
    const renamed = phone.book.holeView(hole)!.runs.find((run) => run.id === runs[1])!;
    expect(renamed.pieces[0]).toMatchObject({ name: 'B-P007.1', aliases: ['B-P002.1'] });
  });

  it('a piece moved to another run leaves the one and enters the other', () => {
    const { phone, hole, runs, pieces } = drilled();
    phone.book.view();
    phone.do({ do: 'correct', thing: pieces[0]!, readings: { run: runs[2]! }, reason: 'wrong tray' });
    const names = phone.book.holeView(hole)!.runs.map((run) => run.pieces.map((piece) => piece.name));
    expect(names).toEqual([[], ['B-P002.1'], ['B-P003.1', 'B-P003.1']]);
  });

  it('people stay the same objects while nobody says anything new about them', () => {
    const { phone } = opened('phone');
    const before = phone.book.view().people;
    phone.log('person', { initials: 'OS' });
    expect(
      phone.book
        .view()
        .people.slice(0, 2)
        .every((one, index) => one === before[index]),
    ).toBe(true);
  });

  it('J1: two holes of one letter stand in the same order, whichever was heard of first', () => {
    const { phone } = opened('phone');
    const tablet = device('tablet');
    tablet.hear(phone);
    tablet.me = phone.me;
    phone.log('hole', { letter: 'C' });
    tablet.log('hole', { letter: 'C' });
    const shown = (entries: readonly (readonly Entry[])[]): Book => {
      const book = createBook();
      for (const portion of entries) {
        book.add(portion);
        book.view();
      }
      return book;
    };
    const one = shown([phone.written, tablet.written]).view();
    expect(one).toEqual(shown([tablet.written, phone.written]).view());
  });
});

/** Hole B with three runs of one piece each. */
function drilled() {
  const { phone, hole } = opened('phone');
  const runs = ['1', '2', '3'].map((number) => phone.log('run', { number, from: '0 m', to: '0.87 m' }, hole));
  const pieces = runs.map((run) =>
    phone.log('piece', { number: '1', length: '80 cm', topBreak: 'fits' }, hole, run),
  );
  return { phone, hole, runs, pieces };
}
