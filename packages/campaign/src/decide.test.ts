import { describe, expect, it } from 'vitest';
import { device, opened } from './device.suite.ts';
import { sayEnglish } from './texts/say-english.ts';

function withRuns() {
  const { phone, hole } = opened('phone');
  const first = phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole);
  const second = phone.log('run', { number: '2', from: '0.87 m', to: '1.74 m' }, hole);
  return { phone, hole, first, second };
}

describe('decide: what is refused', () => {
  it('open campaign without a name or crew: says both', () => {
    const fresh = device('fresh');
    fresh.me = '';
    const refusals = fresh.refusals({ do: 'open campaign', readings: {}, crew: [] });
    expect(refusals.map((one) => one.field)).toEqual(['name', 'crew']);
  });

  it.each([
    [{ number: '3', from: '1.234,5' }, 'from', 'more than one comma or point'],
    [{ number: 'three' }, 'number', 'not a whole number'],
    [{ number: '3', recovered: 'some' }, 'recovered', 'not a word'],
    [{ from: '1.74 m' }, 'number', 'needs its number'],
    [{ number: '3', colour: 'blue' }, 'colour', 'has no "colour"'],
  ])('log run %j: refuses %s, because it %s', (readings, field, what) => {
    const { phone, hole } = withRuns();
    const refusals = phone.refusals({
      do: 'log',
      kind: 'run',
      hole,
      readings: readings as Record<string, string>,
    });
    expect(refusals).toHaveLength(1);
    expect(refusals[0]!.field).toBe(field);
    expect(sayEnglish(refusals[0]!.what)).toContain(what);
    expect(sayEnglish(refusals[0]!.mend)).not.toBe('');
  });

  it('unknown kinds, holes, runs and things', () => {
    const { phone, hole, first } = withRuns();
    expect(sayEnglish(phone.refusals({ do: 'log', kind: 'bag', readings: {} })[0]!.what)).toContain('"bag"');
    expect(phone.refusals({ do: 'log', kind: 'run', hole: 'no', readings: { number: '1' } })[0]!.field).toBe(
      'hole',
    );
    const piece = { number: '1', topBreak: 'fits' };
    expect(phone.refusals({ do: 'log', kind: 'piece', hole, run: 'no', readings: piece })[0]!.field).toBe(
      'run',
    );
    expect(phone.refusals({ do: 'log', kind: 'piece', hole, readings: piece })[0]!.field).toBe('run');
    for (const thing of ['no', '__proto__', ''])
      expect(phone.refusals({ do: 'withdraw', thing, reason: 'r' })[0]!.field).toBe('thing');
    expect(
      sayEnglish(phone.refusals({ do: 'join', into: first, from: hole, reason: 'r' })[0]!.what),
    ).toContain("can't be one");
    expect(
      sayEnglish(phone.refusals({ do: 'join', into: first, from: first, reason: 'r' })[0]!.what),
    ).toContain('already');
  });

  it('a correction, withdrawal or join without a reason, a correction without a reading', () => {
    const { phone, first, second } = withRuns();
    const thing = first;
    expect(phone.refusals({ do: 'correct', thing, readings: { to: '1 m' }, reason: ' ' })[0]!.field).toBe(
      'reason',
    );
    expect(phone.refusals({ do: 'withdraw', thing, reason: '' })[0]!.field).toBe('reason');
    expect(phone.refusals({ do: 'join', into: thing, from: second, reason: '' })[0]!.field).toBe('reason');
    expect(phone.refusals({ do: 'correct', thing, readings: {}, reason: 'r' })).toHaveLength(1);
    expect(phone.refusals({ do: 'correct', thing, readings: { to: '' }, reason: 'r' })[0]!.field).toBe('to');
  });

  it('J8: nobody says it', () => {
    const { phone, hole } = withRuns();
    phone.me = '';
    expect(phone.refusals({ do: 'log', kind: 'run', hole, readings: { number: '3' } })[0]!.field).toBe('by');
    const own = phone.log('person', { initials: 'RA' });
    expect(phone.written.at(-1)!.header.by).toBe(own);
  });
});

describe('decide: what is written', () => {
  it('J6: readings as typed; words as the list writes them; a run by its name or number becomes its id', () => {
    const { phone, hole, first } = withRuns();
    phone.log('piece', { run: 'b-r001', number: '1', length: ' 87,5cm ', topBreak: 'FITS' }, hole);
    expect(phone.written.at(-1)!.body).toEqual({
      hole,
      run: first,
      readings: { number: '1', length: '87,5cm', topBreak: 'fits' },
    });
    phone.log('sounding', { afterRun: '1', depth: '0.86' }, hole);
    expect(phone.written.at(-1)!.body).toEqual({ hole, readings: { afterRun: first, depth: '0.86' } });
  });

  it('J6: moments, files and things of the campaign are kept as they can be read again, places as typed', () => {
    const { phone, hole } = withRuns();
    const person = phone.book.view().people[1]!.id;
    phone.log('duty', { person: 'kt', as: 'Driller', began: '2026-06-14 20:00+05:45' });
    expect(phone.written.at(-1)!.body).toEqual({
      readings: { person, as: 'driller', began: '2026-06-14T20:00+05:45' },
    });
    phone.log('position', {
      of: 'b',
      position: ' -77,8500; 38,0100 ',
      elevation: '2 100 m'.replace(' ', ''),
    });
    expect(phone.written.at(-1)!.body).toEqual({
      readings: { of: hole, position: '-77,8500; 38,0100', elevation: '2100 m' },
    });
    const picture = 'AB'.repeat(32);
    phone.log('photograph', { of: 'B-R001', picture }, hole);
    expect(phone.written.at(-1)!.body).toMatchObject({ readings: { picture: picture.toLowerCase() } });
    expect(
      phone.refusals({ do: 'log', kind: 'duty', readings: { person: 'XY', as: 'cook', began: 'today' } }),
    ).toMatchObject([{ field: 'person' }, { field: 'began' }]);
  });

  it('a field left blank is left out', () => {
    const { phone, hole } = withRuns();
    phone.log('run', { number: '3', from: '', to: ' ' }, hole);
    expect(phone.written.at(-1)!.body).toEqual({ hole, readings: { number: '3' } });
  });

  it('changes nothing by itself', () => {
    const { phone, hole } = withRuns();
    const before = phone.book.view();
    phone.decide({ do: 'log', kind: 'run', hole, readings: { number: '3' } });
    expect(phone.book.view()).toBe(before);
  });

  it('refuses, with words, what no entry can hold: U+0000, half a character, more than its field may have', () => {
    const { phone, hole } = opened('phone');
    const run = { number: '1' };
    for (const note of ['a\u0000b', 'half \ud83d'])
      expect(phone.refusals({ do: 'log', kind: 'run', hole, readings: { ...run, note } })).toMatchObject([
        { field: 'note', what: { key: 'refuse.character' } },
      ]);
    const spaced = `a${' '.repeat(300_000)}b`;
    const to = `1${' '.repeat(5000)}m`;
    for (const readings of [
      { ...run, note: spaced },
      { ...run, to },
    ])
      expect(phone.refusals({ do: 'log', kind: 'run', hole, readings })[0]?.what.key).toBe(
        'refuse.long.text',
      );
    const thing = phone.log('run', { ...run, note: 'whole 😀' }, hole);
    expect(phone.refusals({ do: 'withdraw', thing, reason: 'half \udc00' })).toMatchObject([
      { field: 'reason', what: { key: 'refuse.character.reason' } },
    ]);
  });
});
