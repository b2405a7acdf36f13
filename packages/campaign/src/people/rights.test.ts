import { describe, expect, it } from 'vitest';
import { type Device, device, opened } from '../device.suite.ts';
import { asksPin, lettingStand, rightFor, rightsOf } from '../index.ts';
import { sayEnglish } from '../texts/say-english.ts';
import type { ConflictView } from '../view.ts';

const reason = 'the lead says so';

/** Hole B, people HN and KT, rights by name since HN said so; a tablet in KT's hands that has heard it, an hour later. */
function byName() {
  const { phone, hole } = opened('phone');
  const [hn, kt] = phone.book.view().people.map(({ id }) => id) as [string, string];
  const campaign = phone.book.view().opened!.id;
  phone.do({ do: 'add', thing: campaign, readings: { rights: 'by name' } });
  const tablet = device('tablet', 1_780_003_600_000);
  tablet.hear(phone);
  tablet.me = kt;
  return { phone, tablet, hole, hn, kt, campaign };
}

const say = (of: Device, thing: string, readings: Record<string, string>) =>
  of.do({ do: 'correct', thing, readings, reason });

const conflictsOf = ({ book }: Device): readonly ConflictView[] => {
  const { conflicts, holes } = book.view();
  return [...conflicts!, ...holes.flatMap((hole) => hole.conflicts)];
};

const words = (of: Device): readonly string[] => conflictsOf(of).map(({ says }) => sayEnglish(says));

const version = { name: 'solved-2', solver: 's 1', table: 'ab'.repeat(32) };

describe('rights in the record', () => {
  it('a campaign that says nothing about them lets everybody do everything', () => {
    const { phone, hole } = opened('phone');
    expect(phone.book.view().rights).toBeUndefined();
    expect(rightsOf(phone.book.view(), 'whoever')).toEqual({ log: true, plan: true, signOff: true });
    expect(asksPin(phone.book.view())).toBe(false);
    phone.me = phone.book.view().people[1]!.id;
    phone.log('depth version', version, hole);
    // Said, but not by name: it has no effect yet.
    say(phone, phone.me, { signOff: 'no', log: 'no' });
    expect(rightsOf(phone.book.view(), phone.me).signOff).toBe(true);
    expect(conflictsOf(phone)).toEqual([]);
  });

  it('whoever makes them a matter of names can change plans and sign off afterwards', () => {
    const { phone, hn, kt } = byName();
    expect(rightsOf(phone.book.view(), hn)).toEqual({ log: true, plan: true, signOff: true });
    expect(rightsOf(phone.book.view(), kt)).toEqual({ log: true, plan: false, signOff: false });
    expect(rightsOf(phone.book.view(), 'somebody new')).toEqual({ log: true, plan: false, signOff: false });
  });

  it('a campaign can be opened by name; who opens it has all three', () => {
    const phone = device('phone');
    phone.me = '';
    const crew = [{ initials: 'HN' }, { initials: 'KT' }];
    phone.do({ do: 'open campaign', readings: { name: 'Ceredin Saddle', rights: 'By name' }, crew });
    const [hn, kt] = phone.book.view().people;
    expect(rightsOf(phone.book.view(), hn!.id).signOff).toBe(true);
    expect(rightsOf(phone.book.view(), kt!.id).plan).toBe(false);
    expect(conflictsOf(phone)).toEqual([]);
  });

  it('rights that were taken before names counted are given again to who switches them on', () => {
    const { phone } = opened('phone');
    say(phone, phone.me, { plan: 'no', signOff: 'no' });
    say(phone, phone.book.view().opened!.id, { rights: 'by name' });
    expect(rightsOf(phone.book.view(), phone.me)).toEqual({ log: true, plan: true, signOff: true });
    expect(conflictsOf(phone)).toEqual([]);
  });

  it('what each command needs', () => {
    const { phone, hole, campaign, kt } = byName();
    const view = phone.book.view();
    const run = phone.log('run', { number: '1', from: '0 m', to: '0.9 m' }, hole);
    const log = (kind: string, readings = {}) => rightFor({ do: 'log', kind, hole, readings }, view);
    const kinds = ['run', 'piece', 'sounding', 'zero check', 'set-up', 'weather', 'person', 'duty', 'device'];
    expect(kinds.map((kind) => log(kind))).toEqual(kinds.map(() => 'log'));
    expect(['hole', 'zero', 'depth settings', 'splice', 'site'].map((kind) => log(kind))).toEqual(
      Array(5).fill('plan'),
    );
    expect(['depth version', 'settled right'].map((kind) => log(kind))).toEqual(['signOff', 'signOff']);
    expect(log('person', { initials: 'MO', plan: ' ' })).toBe('log');
    expect(log('person', { initials: 'MO', plan: 'yes' })).toBe('signOff');
    const correct = (thing: string, readings: Record<string, string>) =>
      rightFor({ do: 'correct', thing, readings, reason }, phone.book.view());
    expect(correct(run, { to: '0.95 m' })).toBe('log');
    expect(correct(kt, { name: 'K. T.' })).toBe('log');
    expect(correct(kt, { log: 'no' })).toBe('signOff');
    expect(correct(campaign, { note: 'x' })).toBe('plan');
    expect(correct(campaign, { pin: 'asked' })).toBe('signOff');
    const withdraw = (thing: string) => rightFor({ do: 'withdraw', thing, reason }, phone.book.view());
    expect([run, hole, kt].map(withdraw)).toEqual(['log', 'plan', 'signOff']);
    expect(withdraw('nowhere')).toBe('log');
    expect(rightFor({ do: 'join', into: kt, from: kt, reason }, view)).toBe('signOff');
  });

  it('who lacks a right is told who has it, and what to do; everything else is taken', () => {
    const { tablet, hole } = byName();
    const [refusal] = tablet.refusals({ do: 'log', kind: 'depth version', hole, readings: version });
    expect(refusal!.field).toBe('by');
    expect(sayEnglish(refusal!.what)).toBe('KT has no right to sign off here.');
    expect(sayEnglish(refusal!.mend)).toMatch(/^These have it: HN\. Hand over/);
    expect(tablet.refusals({ do: 'log', kind: 'zero', hole, readings: { surface: 'board' } })).toHaveLength(
      1,
    );
    const run = tablet.log('run', { number: '1', from: '0 m', to: '0.9 m' }, hole);
    say(tablet, run, { to: '0.95 m' });
  });

  it('who may not log is refused, and may not write themself down anew to get around it', () => {
    const { phone, tablet, hole, kt } = byName();
    say(phone, kt, { log: 'no' });
    tablet.hear(phone);
    expect(tablet.refusals({ do: 'log', kind: 'run', hole, readings: { number: '1' } })).toHaveLength(1);
    expect(tablet.refusals({ do: 'log', kind: 'person', readings: { initials: 'KT' } })).toHaveLength(1);
  });

  it('an unproven person logs, and neither plans nor signs off', () => {
    const { phone, hole } = byName();
    const context = { by: phone.me, observedAt: phone.at, newId: () => 'x', unproven: true } as const;
    const decide = (kind: string, readings: Record<string, string>) =>
      phone.book.decide({ do: 'log', kind, hole, readings }, context);
    expect(decide('run', { number: '1' }).ok).toBe(true);
    for (const refused of [decide('depth version', version), decide('zero', { surface: 'board' })]) {
      if (refused.ok) throw new Error('taken');
      expect(refused.refusals.map(({ what }) => sayEnglish(what))).toEqual([
        'The PIN of HN could not be checked on this device.',
      ]);
    }
  });

  it('the last one who may sign off stays, whatever is said or withdrawn', () => {
    const { phone, hn, kt, campaign } = byName();
    const take = { do: 'correct', thing: hn, readings: { signOff: 'no' }, reason } as const;
    expect(sayEnglish(phone.refusals(take)[0]!.what)).toBe('HN is the last one with the right to sign off.');
    expect(phone.refusals({ do: 'withdraw', thing: hn, reason })).toHaveLength(1);
    phone.do({ do: 'add', thing: kt, readings: { signOff: 'yes' } });
    phone.do(take);
    expect(rightsOf(phone.book.view(), hn).signOff).toBe(false);
    phone.me = kt;
    expect(phone.refusals({ do: 'withdraw', thing: kt, reason })).toHaveLength(1);
    say(phone, campaign, { rights: 'everybody' });
    phone.do({ do: 'withdraw', thing: kt, reason });
    expect(rightsOf(phone.book.view(), hn).signOff).toBe(true);
  });

  it('whether a PIN is asked is said by who may sign off, with or without names', () => {
    const { phone, tablet, campaign } = byName();
    phone.do({ do: 'add', thing: campaign, readings: { pin: 'asked' } });
    expect(asksPin(phone.book.view())).toBe(true);
    tablet.hear(phone);
    expect(
      tablet.refusals({ do: 'correct', thing: campaign, readings: { pin: 'not asked' }, reason }),
    ).toHaveLength(1);
    say(phone, campaign, { rights: 'everybody' });
    expect(asksPin(phone.book.view())).toBe(true);
  });
});

describe('J3: a right used after it was taken away', () => {
  /** KT may sign off; HN takes it away while KT's tablet, far off, signs off solved-2 a little later. */
  function usedAfter() {
    const said = byName();
    const { phone, tablet, hole, kt } = said;
    phone.do({ do: 'add', thing: kt, readings: { signOff: 'yes' } });
    tablet.hear(phone);
    phone.at = '2026-06-15T08:00:00Z';
    say(phone, kt, { signOff: 'no' });
    tablet.at = '2026-06-16T10:00:00Z';
    const id = tablet.log('depth version', version, hole);
    return { ...said, id };
  }

  it('is kept, counts, and is shown as a conflict on both tablets, with who and when', () => {
    const { phone, tablet, id, kt } = usedAfter();
    expect(conflictsOf(tablet)).toEqual([]);
    phone.hear(tablet);
    tablet.hear(phone);
    expect(words(phone)).toEqual([
      'KT signed off solved-2 on 2026-06-16: HN had taken the right to sign off away on 2026-06-15.',
    ]);
    expect(conflictsOf(tablet)).toEqual(conflictsOf(phone));
    const [conflict] = conflictsOf(phone);
    expect(conflict).toMatchObject({ things: [id], used: { person: kt, right: 'signOff', entries: [id] } });
    const [stands] = phone.book.view().holes[0]!.others['depth version']!;
    expect(stands).toMatchObject({ name: 'solved-2', withdrawn: null });
  });

  it('is no conflict where it was used before it was taken: the control', () => {
    const { phone, tablet, hole, kt } = byName();
    phone.do({ do: 'add', thing: kt, readings: { signOff: 'yes' } });
    tablet.hear(phone);
    tablet.log('depth version', version, hole);
    phone.hear(tablet);
    say(phone, kt, { signOff: 'no' });
    tablet.hear(phone);
    expect([...conflictsOf(phone), ...conflictsOf(tablet)]).toEqual([]);
  });

  it('is settled by a third entry of somebody who may sign off, and of nobody else', () => {
    const { phone, tablet, kt, id } = usedAfter();
    phone.hear(tablet);
    tablet.hear(phone);
    const settle = {
      do: 'log',
      kind: 'settled right',
      readings: { person: kt, right: 'signOff', entries: id },
    } as const;
    expect(tablet.refusals(settle)).toHaveLength(1);
    const third = phone.do(settle);
    tablet.hear(phone);
    expect([...conflictsOf(phone), ...conflictsOf(tablet)]).toEqual([]);
    // Nothing was overwritten, and what was settled can be taken up again.
    expect(phone.book.view().others['settled right']).toHaveLength(1);
    phone.do({ do: 'withdraw', thing: third, reason });
    expect(conflictsOf(phone)).toHaveLength(1);
  });

  it('what somebody lets stand who has lost the right settles nothing', () => {
    const { phone, tablet, hole, kt } = usedAfter();
    const far = device('far', 1_780_007_200_000);
    far.hear(phone, tablet);
    far.me = kt;
    far.write({ kind: 'zero.logged', body: { hole, readings: { surface: 'board' } } });
    far.write({
      kind: 'right.settled',
      body: { readings: { person: kt, right: 'signOff', entries: tablet.written.at(-1)!.header.id } },
    });
    phone.hear(tablet, far);
    expect(words(phone)).toEqual([
      expect.stringMatching(/^KT let stand on .* what KT had written .* It settles nothing\.$/),
      expect.stringMatching(/^KT signed off solved-2/),
      expect.stringMatching(
        /^KT changed Zero 2 on .*: rights are by name since .* change a plan was not given\.$/,
      ),
    ]);
  });

  it('is settled by withdrawing what it made, by somebody who has the right', () => {
    const { phone, tablet, id } = usedAfter();
    phone.hear(tablet);
    phone.do({ do: 'withdraw', thing: id, reason });
    expect(conflictsOf(phone)).toEqual([]);
    phone.do({ do: 'restore', thing: id, reason });
    expect(conflictsOf(phone)).toHaveLength(1);
  });

  it('what somebody logs without the right is one conflict, however much it is, and arrives late as well', () => {
    const { phone, tablet, hole, kt } = byName();
    say(phone, kt, { log: 'no' });
    const run = tablet.log('run', { number: '1', from: '0 m', to: '0.9 m' }, hole);
    tablet.log('piece', { number: '1', length: '80 cm', topBreak: 'unsure' }, hole, run);
    tablet.log('weather', { wind: '4 m/s' });
    phone.hear(tablet);
    expect(words(phone)).toEqual([
      expect.stringMatching(/^KT wrote 1 entry, on 2026-06-14: HN had taken the right to log away on/),
      expect.stringMatching(/^KT wrote 2 entries, the last on/),
    ]);
    const { used } = conflictsOf(phone)[1]!;
    for (const command of lettingStand(used!)) phone.do(command);
    expect(conflictsOf(phone)).toHaveLength(1);
    // What was not looked at is not settled with the rest.
    tablet.log('run', { number: '2', from: '0.9 m', to: '1.8 m' }, hole);
    phone.hear(tablet);
    expect(conflictsOf(phone)).toHaveLength(2);
  });

  it('any number of entries is let stand at once', () => {
    const { phone, tablet, hole, kt } = byName();
    say(phone, kt, { log: 'no' });
    for (let number = 1; number <= 450; number += 1) tablet.log('run', { number: `${number}` }, hole);
    phone.hear(tablet);
    expect(words(phone)).toHaveLength(1);
    const commands = lettingStand(conflictsOf(phone)[0]!.used!);
    expect(commands).toHaveLength(3);
    for (const command of commands) phone.do(command);
    expect(words(phone)).toEqual([]);
  });

  it('a correction is settled when every reading that it gave is corrected by somebody who may', () => {
    const { phone, tablet, kt, hole } = byName();
    phone.do({ do: 'add', thing: kt, readings: { plan: 'yes' } });
    const settings = phone.log('depth settings', { lengthSdIce: '2 mm', stubMean: '4 cm' }, hole);
    tablet.hear(phone);
    say(phone, kt, { plan: 'no' });
    say(tablet, settings, { lengthSdIce: '3 mm', stubMean: '5 cm' });
    phone.hear(tablet);
    expect(words(phone)).toHaveLength(1);
    say(phone, settings, { lengthSdIce: '2.5 mm' });
    expect(words(phone)).toHaveLength(1);
    say(phone, settings, { stubMean: '4.5 cm' });
    expect(words(phone)).toEqual([]);
  });

  it('a right given by somebody who had lost it gives nothing until it is let stand', () => {
    const { phone, tablet, hn, kt } = byName();
    phone.do({ do: 'add', thing: kt, readings: { signOff: 'yes' } });
    tablet.hear(phone);
    say(phone, kt, { signOff: 'no' });
    const mo = tablet.log('person', { initials: 'MO', plan: 'yes' });
    say(tablet, hn, { signOff: 'no' });
    phone.hear(tablet);
    tablet.hear(phone);
    expect(rightsOf(phone.book.view(), hn).signOff).toBe(true);
    expect(rightsOf(phone.book.view(), mo).plan).toBe(false);
    expect(rightsOf(tablet.book.view(), kt).signOff).toBe(false);
    expect(words(phone)).toEqual([
      expect.stringMatching(/^KT changed who may do what \(MO\).* gives nothing until it is let stand\.$/),
      expect.stringMatching(/^KT changed who may do what \(HN\)/),
    ]);
    const { used } = conflictsOf(phone)[0]!;
    phone.log('settled right', { person: kt, right: 'signOff', entries: used!.entries.join(' ') });
    expect(rightsOf(phone.book.view(), mo).plan).toBe(true);
    say(phone, hn, { signOff: 'yes' });
    expect(words(phone)).toEqual([]);
  });
});

describe('J1: rights after a merge', () => {
  it('two tablets that each take the other one out leave a campaign that can be put right', () => {
    const { phone, tablet, hn, kt } = byName();
    phone.do({ do: 'add', thing: kt, readings: { signOff: 'yes' } });
    tablet.hear(phone);
    say(phone, kt, { signOff: 'no' });
    say(tablet, hn, { signOff: 'no' });
    phone.hear(tablet);
    tablet.hear(phone);
    const both = [phone, tablet].map(({ book }) => [hn, kt].map((id) => rightsOf(book.view(), id).signOff));
    expect(both[0]).toEqual(both[1]);
    expect(both[0]).toEqual([true, false]);
  });

  it('where each gives up their own and nobody is left, the last one keeps it', () => {
    const { phone, tablet, hn, kt } = byName();
    phone.do({ do: 'add', thing: kt, readings: { signOff: 'yes' } });
    tablet.hear(phone);
    say(phone, hn, { signOff: 'no' });
    say(tablet, kt, { signOff: 'no' });
    phone.hear(tablet);
    tablet.hear(phone);
    for (const { book } of [phone, tablet])
      expect([hn, kt].map((id) => rightsOf(book.view(), id).signOff)).toEqual([false, true]);
    expect(conflictsOf(phone)).toEqual([]);
    say(tablet, hn, { signOff: 'yes' });
    expect(rightsOf(tablet.book.view(), hn).signOff).toBe(true);
  });

  it('one person written down on two tablets has, once they are joined, the rights of both', () => {
    const { phone, tablet } = byName();
    const mine = phone.log('person', { initials: 'MO', plan: 'yes' });
    const other = tablet.log('person', { initials: 'MO' });
    phone.hear(tablet);
    expect(rightsOf(phone.book.view(), other).plan).toBe(false);
    phone.do({ do: 'join', into: other, from: mine, reason });
    expect([mine, other].map((id) => rightsOf(phone.book.view(), id).plan)).toEqual([true, true]);
    // What was written under either name is told of the one person.
    tablet.me = mine;
    say(phone, other, { log: 'no' });
    tablet.log('weather', { wind: '4 m/s' });
    tablet.me = other;
    tablet.log('weather', { wind: '5 m/s' });
    phone.hear(tablet);
    expect(conflictsOf(phone).map(({ used }) => used)).toMatchObject([
      { person: other, entries: { length: 2 } },
    ]);
  });
});
