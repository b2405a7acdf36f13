import { describe, expect, it } from 'vitest';
import type { Doubt } from './command.ts';
import { opened } from './device.suite.ts';
import { sayEnglish } from './texts/say-english.ts';
import { sentence } from './texts/sentence.ts';

function withRuns() {
  const { phone, hole } = opened('phone');
  phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
  const run = phone.log('run', { number: '2', from: '0.86 m', to: '1.74 m' }, hole);
  const log = (kind: string, readings: Record<string, string>): readonly Doubt[] =>
    phone.doubts({ do: 'log', kind, hole, run, readings });
  return { phone, hole, run, log };
}

const asked = (doubts: readonly Doubt[]) => doubts.map((one) => one.field);
const slips = (doubts: readonly Doubt[]) => doubts[0]!.likely.map((one) => one.readings);

describe('doubts about a run: asked, never refused', () => {
  it('none where it follows the one before', () => {
    expect(withRuns().log('run', { number: '3', from: '1.73 m', to: '2.60 m' })).toEqual([]);
  });

  it('its end above its start: swapped?', () => {
    const doubts = withRuns().log('run', { number: '3', from: '2.60 m', to: '1.74 m' });
    expect(asked(doubts)).toContain('to');
    const to = doubts.find((one) => one.field === 'to')!;
    expect(to.likely[0]).toEqual({
      label: sentence('slip.ends', { from: '1.74 m', to: '2.60 m' }),
      readings: { from: '1.74 m', to: '2.60 m' },
    });
  });

  it.each([
    ['1.84 m', '10 cm too deep', '1.74 m'],
    ['0.74 m', '1 m too high', '1.74 m'],
    ['7.14 m', 'digits swapped', '1.74 m'],
    ['1,47 m', 'digits swapped', '1,74 m'],
  ])('a start at %s after an end at 1.74 m (%s): was it %s?', (from, _why, meant) => {
    const doubts = withRuns().log('run', { number: '3', from, to: '2.60 m' });
    expect(asked(doubts)[0]).toBe('from');
    expect(slips(doubts)).toContainEqual({ from: meant });
  });

  it('a run longer than a barrel', () => {
    const doubts = withRuns().log('run', { number: '3', from: '1.74 m', to: '3.60 m' });
    expect(asked(doubts)).toEqual(['to']);
    expect(slips(doubts)).toContainEqual({ to: '2.60 m' });
  });

  it('a number that is there, or out of order: the next one is offered', () => {
    const { log } = withRuns();
    for (const number of ['2', '5']) {
      const doubts = log('run', { number, from: '1.74 m', to: '2.60 m' });
      expect(doubts[0]).toMatchObject({ field: 'number', likely: [{ readings: { number: '3' } }] });
    }
  });

  it('asks about a correction too, and only about what it says', () => {
    const { phone, run } = withRuns();
    expect(
      asked(phone.doubts({ do: 'correct', thing: run, readings: { to: '0.50 m' }, reason: 'r' })),
    ).toEqual(['to']);
    expect(phone.doubts({ do: 'correct', thing: run, readings: { recovered: 'core' }, reason: 'r' })).toEqual(
      [],
    );
  });
});

describe('doubts about a piece', () => {
  it('none while the pieces are no longer than the run', () => {
    expect(withRuns().log('piece', { number: '1', length: '85 cm', topBreak: 'fits' })).toEqual([]);
  });

  it.each([
    ['97,5 cm', { length: '87,5 cm' }],
    ['8,75 m', { length: '8,75 cm' }],
    ['95.0 cm', { length: '85.0 cm' }],
  ])('%s of core from 88 cm drilled: likely %j', (length, meant) => {
    const doubts = withRuns().log('piece', { number: '1', length, topBreak: 'fits' });
    expect(asked(doubts)).toContain('length');
    expect(slips(doubts)).toContainEqual(meant);
  });

  it('ice that the run before left in the hole explains more core than was drilled', () => {
    const { phone, hole, log } = withRuns();
    const first = phone.book.holeView(hole)!.runs[0]!.id;
    const piece = { number: '1', length: '110 cm', topBreak: 'fits' };
    expect(asked(log('piece', piece))).toEqual(['length']);
    phone.log('piece', { number: '1', length: '60 cm', topBreak: 'unsure' }, hole, first);
    expect(log('piece', piece)).toEqual([]);
  });

  it('lost ice at a break that is said to fit; a piece from a run that brought nothing; a number there already', () => {
    const { phone, hole, run, log } = withRuns();
    expect(log('piece', { number: '1', length: '10 cm', topBreak: 'fits', loss: '2 cm' })).toMatchObject([
      { field: 'loss', likely: [{ readings: { topBreak: 'loss' } }] },
    ]);
    phone.log('piece', { number: '1', length: '10 cm', topBreak: 'fits' }, hole, run);
    expect(sayEnglish(log('piece', { number: '1', length: '10 cm', topBreak: 'fits' })[0]!.what)).toContain(
      'B-P002.1 already',
    );
    phone.do({ do: 'correct', thing: run, readings: { recovered: 'nothing' }, reason: 'empty' });
    expect(asked(log('piece', { number: '2', length: '10 cm', topBreak: 'fits' }))).toEqual(['run']);
  });
});

describe('doubts about the rest', () => {
  it('a sounding far from the cable: 1 m out?', () => {
    const { log } = withRuns();
    expect(log('sounding', { depth: '1.72 m' })).toEqual([]);
    const doubts = log('sounding', { depth: '2.72 m' });
    expect(asked(doubts)).toEqual(['depth']);
    expect(slips(doubts)).toContainEqual({ depth: '1.72 m' });
  });

  it('a number outside of what its field usually holds: the bound is said in the unit of the field', () => {
    const { log } = withRuns();
    const asks = (kind: string, readings: Record<string, string>) =>
      log(kind, readings).map((one) => [
        one.field,
        sayEnglish(one.what),
        ...one.likely.map((slip) => sayEnglish(slip.label)),
      ]);
    const piece = { number: '1', topBreak: 'fits' };
    expect(asks('piece', { ...piece, mass: '0.87 g', temperature: '24.1' })).toEqual([
      ['mass', '0.87 g is less than 10 g, unusual for mass. Is it right?', 'Meant kg: 0.87 kg'],
      ['temperature', '24.1 is more than 0 °C, unusual for temperature. Is it right?', 'Sign wrong: -24.1'],
    ]);
    expect(asks('piece', { ...piece, missing: '45 %' })).toEqual([
      ['missing', '45 % is more than 30 %, unusual for missing share of its volume. Is it right?'],
    ]);
    expect(asks('tray', { positions: '0 42,5 412 cm' })).toEqual([
      ['positions', '0 42,5 412 cm is more than 300 cm, unusual for places on the tape. Is it right?'],
    ]);
  });

  it('the same initials or letter twice; a withdrawn run with pieces', () => {
    const { phone, hole, run } = withRuns();
    expect(asked(phone.doubts({ do: 'log', kind: 'person', readings: { initials: 'KT' } }))).toEqual([
      'initials',
    ]);
    expect(asked(phone.doubts({ do: 'log', kind: 'hole', readings: { letter: 'b' } }))).toEqual(['letter']);
    phone.log('piece', { number: '1', length: '10 cm', topBreak: 'fits' }, hole, run);
    expect(sayEnglish(phone.doubts({ do: 'withdraw', thing: run, reason: 'r' })[0]!.what)).toContain(
      '1 piece',
    );
  });

  it('people and holes that were withdrawn keep no initials and no letter', () => {
    const { phone } = withRuns();
    const again = phone.log('person', { initials: 'XY' });
    phone.do({ do: 'withdraw', thing: again, reason: 'nobody' });
    expect(phone.doubts({ do: 'log', kind: 'person', readings: { initials: 'XY' } })).toEqual([]);
  });
});
