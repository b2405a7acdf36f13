import { describe, expect, it } from 'vitest';
import { depthReadings } from './depth/readings.ts';
import { type Device, device, opened } from './device.suite.ts';
import { asItIs } from './texts/called.ts';
import { sayEnglish } from './texts/say-english.ts';

/** Two devices that were apart when each logged its own run 3. */
function twoRunsThree(to = '2.60 m') {
  const { phone, hole } = opened('phone');
  phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
  phone.log('run', { number: '2', from: '0.87 m', to: '1.74 m' }, hole);
  const tablet = device('tablet');
  tablet.me = phone.book.view().people[1]!.id;
  tablet.hear(phone);
  const mine = phone.log('run', { number: '3', from: '1.74 m', to: '2.60 m' }, hole);
  const theirs = tablet.log('run', { number: '3', from: '1.74 m', to }, hole);
  const pieces = [
    phone.log('piece', { number: '1', length: '40 cm', topBreak: 'fits' }, hole, mine),
    tablet.log('piece', { number: '2', length: '45 cm', topBreak: 'fits' }, hole, theirs),
  ];
  phone.hear(tablet);
  tablet.hear(phone);
  return { phone, tablet, hole, mine, theirs, pieces };
}

const view = (one: Device, hole: string) => one.book.holeView(hole)!;

const none = { others: {} };

describe('two runs of one number', () => {
  it('J3: both are kept and shown as a conflict, the same on both devices', () => {
    const { phone, tablet, hole, mine, theirs } = twoRunsThree();
    expect(view(phone, hole)).toEqual(view(tablet, hole));
    expect(view(phone, hole).runs).toHaveLength(4);
    expect(view(phone, hole).conflicts).toMatchObject([{ kind: 'same name', field: 'number' }]);
    expect(sayEnglish(view(phone, hole).conflicts[0]!.says)).toBe('Two runs are called B-R003.');
    expect([...view(phone, hole).conflicts[0]!.things].sort()).toEqual([mine, theirs].sort());
  });

  it('J3: settled by a join: one run, with the pieces of both', () => {
    const { phone, tablet, hole, mine, theirs, pieces } = twoRunsThree();
    tablet.do({ do: 'join', into: mine, from: theirs, reason: 'same run' });
    phone.hear(tablet);
    const joined = view(phone, hole);
    expect(joined).toEqual(view(tablet, hole));
    expect(joined.conflicts).toEqual([]);
    expect(joined.runs).toHaveLength(3);
    expect(joined.runs[2]).toMatchObject({ id: mine, name: 'B-R003', absorbed: [theirs], aliases: [] });
    expect(joined.runs[2]!.pieces.map((piece) => piece.id)).toEqual(pieces);
    expect(joined.runs[2]!.entries).toEqual(expect.arrayContaining([mine, theirs]));
    const depths = depthReadings(joined, none);
    expect(depths.runs.map((run) => run.id)).toHaveLength(3);
    expect(depths.pieces.map((piece) => piece.run)).toEqual([mine, mine]);
  });

  it('join of runs with differing readings: a conflict, or settled by the readings of the join', () => {
    const { phone, tablet, hole, mine, theirs } = twoRunsThree('2,64 m');
    const open = phone.doubts({ do: 'join', into: mine, from: theirs, reason: 'same run' });
    expect(open).toMatchObject([
      { field: 'to', likely: [{ label: asItIs('2.60 m') }, { label: asItIs('2,64 m') }] },
    ]);
    const other = device('other');
    other.me = phone.me;
    other.hear(phone, tablet);
    phone.do({ do: 'join', into: mine, from: theirs, reason: 'same run' });
    expect(view(phone, hole).conflicts).toMatchObject([
      { kind: 'two readings', field: 'to', things: [mine] },
    ]);
    expect(sayEnglish(view(phone, hole).conflicts[0]!.says)).toBe(
      'B-R003 has two readings of its depth to: 2,64 m or 2.60 m.',
    );
    phone.do({ do: 'correct', thing: theirs, readings: { to: '2,64 m' }, reason: 'this one counts' });
    expect(view(phone, hole).conflicts).toEqual([]);
    expect(view(phone, hole).runs[2]!.readings.to).toMatchObject({ text: '2,64 m', value: 2.64 });
    other.do({ do: 'join', into: mine, from: theirs, readings: { to: '2.60 m' }, reason: 'same run' });
    expect(view(other, hole).conflicts).toEqual([]);
    expect(view(other, hole).runs[2]!.readings.to).toMatchObject({ text: '2.60 m', against: [] });
    expect(view(other, hole).runs[2]!.readings.to!.struck).toHaveLength(2);
  });

  it('J3: settled by a new number: the old name stays as an alias, of its pieces too', () => {
    const { phone, hole, mine, theirs, pieces } = twoRunsThree();
    phone.do({ do: 'correct', thing: theirs, readings: { number: '4' }, reason: 'another run' });
    const after = view(phone, hole);
    expect(after.conflicts).toEqual([]);
    expect(after.runs.map((run) => run.name)).toEqual(['B-R001', 'B-R002', 'B-R003', 'B-R004']);
    expect(after.runs[2]).toMatchObject({ id: mine, aliases: [] });
    expect(after.runs[3]).toMatchObject({ id: theirs, aliases: ['B-R003'] });
    expect(after.runs[3]!.pieces[0]).toMatchObject({
      id: pieces[1],
      name: 'B-P004.2',
      aliases: ['B-P003.2'],
    });
  });

  it('two joins the other way round at once: both devices agree on one run', () => {
    const { phone, tablet, hole, mine, theirs } = twoRunsThree();
    phone.do({ do: 'join', into: mine, from: theirs, reason: 'same run' });
    tablet.do({ do: 'join', into: theirs, from: mine, reason: 'same run' });
    phone.hear(tablet);
    tablet.hear(phone);
    expect(view(phone, hole)).toEqual(view(tablet, hole));
    expect(view(phone, hole)).toMatchObject({ conflicts: [], notUnderstood: 0, waiting: 0 });
    expect(view(phone, hole).runs).toHaveLength(3);
  });

  it('a withdrawal of one told before the join does not take the other along; one told after takes both', () => {
    const { phone, tablet, hole, mine, theirs } = twoRunsThree();
    tablet.do({ do: 'withdraw', thing: theirs, reason: 'logged twice' });
    phone.do({ do: 'join', into: mine, from: theirs, reason: 'same run' });
    phone.hear(tablet);
    expect(view(phone, hole).runs[2]!.withdrawn).toBeNull();
    phone.do({ do: 'withdraw', thing: mine, reason: 'never drilled' });
    expect(view(phone, hole).runs[2]!.withdrawn).toMatchObject({ reason: 'never drilled' });
    expect(view(phone, hole).conflicts).toEqual([]);
  });

  it('two pieces of one number in one run are a conflict; withdrawing one settles it', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
    const a = phone.log('piece', { number: '1', length: '40 cm', topBreak: 'fits' }, hole, run);
    const b = phone.log('piece', { number: '1', length: '45 cm', topBreak: 'fits' }, hole, run);
    expect(view(phone, hole).conflicts).toMatchObject([{ kind: 'same name', things: [a, b] }]);
    expect(sayEnglish(view(phone, hole).conflicts[0]!.says)).toBe('Two pieces are called B-P001.1.');
    phone.do({ do: 'withdraw', thing: b, reason: 'logged twice' });
    expect(view(phone, hole).conflicts).toEqual([]);
    expect(depthReadings(view(phone, hole), none).pieces.map((piece) => piece.id)).toEqual([a]);
  });

  it('a cloned device is a conflict of the campaign', () => {
    const { phone } = opened('phone');
    const twin = device('phone');
    twin.log('person', { initials: 'MO' });
    phone.hear(twin);
    expect(phone.book.view().conflicts).toMatchObject([{ kind: 'cloned device', key: 'cloned:phone' }]);
    expect(sayEnglish(phone.book.view().conflicts![0]!.says)).toBe(
      'Two copies of device phone write at once.',
    );
  });

  it('two tablets log one run with its piece: joined, nothing is left to settle but what differs', () => {
    const { phone, hole } = opened('phone');
    const tablet = device('tablet', 1_780_000_900_000);
    tablet.hear(phone);
    tablet.me = phone.me;
    const [mine, other] = [phone, tablet].map((one) => {
      const run = one.log('run', { number: '1', from: '0', to: '0.90 m' }, hole);
      return { run, piece: one.log('piece', { number: '1', length: '88 cm', topBreak: 'fits' }, hole, run) };
    }) as [{ run: string; piece: string }, { run: string; piece: string }];
    phone.hear(tablet);
    const conflicts = () => phone.book.holeView(hole)!.conflicts.map((one) => one.kind);
    expect(conflicts()).toEqual(['same name']);
    // In the order in which people meet them: the pieces first is the harder one.
    phone.do({ do: 'join', into: mine.piece, from: other.piece, reason: 'one piece' });
    expect(conflicts()).toEqual(['same name', 'two readings']);
    phone.do({ do: 'join', into: mine.run, from: other.run, reason: 'one run' });
    expect(conflicts()).toEqual([]);
    const [run] = phone.book.holeView(hole)!.runs;
    expect(run!.pieces[0]!.readings.run).toMatchObject({ against: [] });
    expect(run!.pieces[0]!.absorbed).toEqual([other.piece]);
  });
});
