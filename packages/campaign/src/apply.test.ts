import { type Entry, FIRST_STAMP, type JsonObject, seal, tick } from '@firnbook/journal';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createBook } from './book.ts';
import { device, opened } from './device.suite.ts';

/** A season in small, by two devices that are apart half of the time, with everything that can be said in it. */
function history(): { readonly entries: readonly Entry[]; readonly hole: string } {
  const { phone, hole } = opened('phone');
  const tablet = device('tablet', 1_780_000_030_000);
  tablet.hear(phone);
  tablet.me = phone.book.view().people[1]!.id;
  const runs: string[] = [];
  for (let number = 1; number <= 4; number++) {
    const writer = number % 2 ? phone : tablet;
    const from = `${((number - 1) * 0.87).toFixed(2)} m`;
    const run = writer.log('run', { number: `${number}`, from, to: `${(number * 0.87).toFixed(2)} m` }, hole);
    runs.push(run);
    for (let piece = 1; piece <= 2; piece++)
      writer.log('piece', { number: `${piece}`, length: `${40 + piece} cm`, topBreak: 'unsure' }, hole, run);
    tablet.hear(phone);
    phone.hear(tablet);
  }
  const twin = tablet.log('run', { number: '4', from: '2.61 m', to: '3.48 m' }, hole);
  tablet.log('piece', { number: '3', length: '12 cm', topBreak: 'loss', loss: '2 cm' }, hole, twin);
  phone.do({ do: 'correct', thing: runs[0]!, readings: { to: '0.88 m' }, reason: 'read again' });
  tablet.do({ do: 'correct', thing: runs[0]!, readings: { to: '0.86 m' }, reason: 'read again' });
  phone.hear(tablet);
  phone.do({ do: 'join', into: runs[3]!, from: twin, reason: 'same run' });
  phone.do({ do: 'correct', thing: runs[0]!, readings: { to: '0.87 m' }, reason: 'this one counts' });
  phone.log('sounding', { afterRun: runs[3]!, depth: '3.47 m' }, hole);
  phone.do({ do: 'withdraw', thing: runs[1]!, reason: 'never drilled' });
  tablet.hear(phone);
  tablet.do({ do: 'correct', thing: hole, readings: { letter: 'C' }, reason: 'B is taken' });
  return { entries: [...phone.written, ...tablet.written], hole };
}

describe('apply', () => {
  it('J1, J2: any order of arrival, in any portions, twice or once, gives the same view', () => {
    const { entries } = history();
    const whole = createBook();
    whole.add(entries);
    const expected = whole.view();
    expect(expected.holes[0]).toMatchObject({ letter: 'C', waiting: 0, notUnderstood: 0, conflicts: [] });
    const orders = fc.tuple(
      fc.shuffledSubarray([...entries], { minLength: entries.length }),
      fc.array(fc.integer({ min: 1, max: 9 }), { minLength: entries.length, maxLength: entries.length }),
    );
    fc.assert(
      fc.property(orders, ([shuffled, portions]) => {
        const book = createBook();
        for (let at = 0, turn = 0; at < shuffled.length; turn++) {
          const portion = shuffled.slice(at, at + portions[turn]!);
          book.add(portion);
          // What is kept from one look to the next must not show: a book that looks for the first time agrees.
          if (turn % 3 === 0) {
            const fresh = createBook();
            fresh.add(shuffled.slice(0, at + portion.length));
            expect(book.view()).toEqual(fresh.view());
          }
          if (turn % 4 === 0) book.add(portion);
          at += portion.length;
        }
        expect(book.view()).toEqual(expected);
      }),
      { numRuns: 60, seed: 34 },
    );
  });

  it('J1: an entry touches its own hole alone; the view of another hole stays the same object', () => {
    const { phone, hole } = opened('phone');
    const other = phone.log('hole', { letter: 'C' });
    const before = phone.book.holeView(other);
    const whole = phone.book.view();
    expect(phone.book.view()).toBe(whole);
    phone.log('run', { number: '1' }, hole);
    expect(phone.book.holeView(other)).toBe(before);
    expect(phone.book.view()).not.toBe(whole);
  });

  it('J5: unknown kinds, versions, fields and unreadable texts are kept and counted, the rest is shown', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
    phone.write({ kind: 'bag.logged', body: { hole, readings: { number: '117' } } });
    phone.write({ kind: 'run.logged', version: 2, body: { hole, readings: { number: '2' } } });
    phone.write({ kind: 'run.logged', body: { hole, readings: { number: '3', mass: '4 kg', to: 'deep' } } });
    const view = phone.book.holeView(hole)!;
    expect(view.notUnderstood).toBe(3);
    expect(view.runs.map((one) => one.number)).toEqual([1, 3]);
    expect(view.runs[0]!.id).toBe(run);
    expect(view.runs[1]!.readings.mass).toMatchObject({ text: '4 kg', value: null });
    expect(view.runs[1]!.readings.to).toMatchObject({ text: 'deep', value: null });
  });

  it('J5: a correction that names itself, or two that name each other, wait for ever and disturb nothing', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
    const body = (to: string): JsonObject => ({ hole, thing: run, readings: { to } });
    phone.write({
      id: 'self',
      kind: 'reading.corrected',
      body: body('1 m'),
      corrects: ['self'],
      reason: '-',
    });
    phone.write({ id: 'one', kind: 'reading.corrected', body: body('2 m'), corrects: ['two'], reason: '-' });
    phone.write({ id: 'two', kind: 'reading.corrected', body: body('3 m'), corrects: ['one'], reason: '-' });
    const view = phone.book.holeView(hole)!;
    expect(view.waiting).toBe(3);
    expect(view.runs[0]!.readings.to).toMatchObject({ text: '0.87 m', struck: [], against: [] });
  });

  it('a long chain of corrections that came before its start is taken without running out of stack', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', to: '0 m' }, hole);
    let last = run;
    for (let i = 1; i <= 3000; i++) {
      const id = `n${i}`;
      const body = { hole, thing: run, readings: { to: `${i} mm` } };
      phone.write({ id, kind: 'reading.corrected', body, corrects: [last], reason: 'again' });
      last = id;
    }
    const late = createBook();
    late.add(phone.written.filter((entry) => entry.header.id !== run));
    expect(late.holeView(hole)!.waiting).toBe(3000);
    late.add(phone.written);
    expect(late.holeView(hole)!.runs[0]!.readings.to).toMatchObject({ text: '3000 mm', against: [] });
  });

  it('J5: never throws, whatever other devices wrote, and shows the good entries all the same', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
    const good = phone.written.map((entry) => entry);
    const names = fc.constantFrom(
      ...[
        'hole',
        'run',
        'thing',
        'into',
        'from',
        'readings',
        'number',
        'to',
        '__proto__',
        'constructor',
        'x',
      ],
    );
    const ids = fc.constantFrom(hole, run, '__proto__', 'nowhere', '');
    const leaf = fc.oneof(
      ids,
      fc.constantFrom(null, true, 0, -1.5, 1e300, '1', '87,5 cm', 'fits', 'ab\u202e'),
    );
    const { body } = fc.letrec<{ body: JsonObject; node: JsonObject[string] }>((tie) => ({
      body: fc.dictionary(names, tie('node') as fc.Arbitrary<JsonObject[string]>, { maxKeys: 6 }),
      node: fc.oneof({ depthSize: 'small' }, leaf, fc.array(leaf, { maxLength: 3 }), tie('body')),
    }));
    const kinds = fc.constantFrom(
      ...['campaign.opened', 'device.named', 'person.logged', 'hole.logged', 'zero.logged', 'run.logged'],
      ...['piece.logged', 'sounding.logged', 'reading.corrected', 'thing.withdrawn', 'things.joined'],
      ...['bag.logged', '__proto__', 'constructor'],
    );
    const hostile = fc.record({
      kind: kinds,
      version: fc.constantFrom(1, 1, 1, 2, 2 ** 40),
      body,
      id: fc.oneof(fc.uuid(), fc.constantFrom(hole, run, '__proto__')),
      corrects: fc.array(fc.constantFrom(hole, run, 'nowhere', '__proto__'), { maxLength: 3 }),
      observedAt: fc.constantFrom('2026-06-14T10:00:00Z', '', 'yesterday'),
    });
    fc.assert(
      fc.property(fc.array(hostile, { maxLength: 12 }), (drafts) => {
        let latest = FIRST_STAMP;
        let previous: string | null = null;
        const foreign = drafts.map((draft, index) => {
          latest = tick(latest, 1_780_000_000_000 + index);
          const place = { campaign: 'c', device: 'foreign', sequence: index + 1, previous, stamp: latest };
          const entry = seal({ ...draft, by: 'x', reason: 'r' }, { ...place, salt: '0'.repeat(32) });
          previous = entry.hash;
          return entry;
        });
        const book = createBook();
        book.add([...foreign, ...good]);
        const view = book.view();
        // Who uses an id twice may take a thing's place, until devices sign; nobody else may.
        if (drafts.every((draft) => draft.id !== hole && draft.id !== run)) {
          const there = view.holes.find((one) => one.id === hole)!;
          expect(there.runs.some((one) => one.id === run || one.absorbed?.includes(run))).toBe(true);
        }
        const again = createBook();
        again.add([...good, ...foreign].reverse());
        expect(again.view()).toEqual(view);
        expect(Object.getPrototypeOf({})).toBe(Object.prototype);
        expect(JSON.stringify(view)).toBe(JSON.stringify(again.view()));
      }),
      { numRuns: 150, seed: 47 },
    );
  });
});
