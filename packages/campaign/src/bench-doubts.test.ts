import { describe, expect, it } from 'vitest';
import type { Readings } from './command.ts';
import { depthReadings } from './depth/readings.ts';
import { opened } from './device.suite.ts';
import { sayEnglish } from './texts/say-english.ts';

/** Hole B with a set-up, one run of two pieces, all invented. */
function bench() {
  const { phone, hole } = opened('phone');
  phone.log('set-up', { name: 'long barrel', barrel: '1.15 m' });
  const run = phone.log('run', { number: '1', from: '0', to: '0.90 m', stub: '20 cm' }, hole);
  const first = phone.log('piece', { number: '1', length: '41 cm', topBreak: 'unsure' }, hole, run);
  phone.log('piece', { number: '2', length: '46 cm', topBreak: 'fits' }, hole, run);
  const asked = (kind: string, readings: Readings, isOfCampaign = false) =>
    phone
      .doubts({ do: 'log', kind, readings, ...(isOfCampaign ? {} : { hole }) })
      .map(({ field, what, likely }) => ({
        field,
        says: sayEnglish(what),
        likely: likely.map((one) => sayEnglish(one.label)),
      }));
  return { phone, hole, run, first, asked };
}

describe('surprises about what is measured', () => {
  it('a tray tape asks where a place is missing, where it runs backwards, and where it is longer than the run', () => {
    const { run, asked } = bench();
    const says = (positions: string) => asked('tray', { run, positions }).map((one) => one.says);
    expect(says('2.0 43.1 89.2 cm')).toEqual([]);
    expect(says('2.0 41 45 89.2 cm')).toEqual([]);
    expect(says('2.0 43.1 cm')).toEqual([
      'B-R001 has 2 pieces, so 3 places are expected; 2 are given. Is one missing or one too many?',
    ]);
    expect(says('2.0 89.2 43.1 cm')).toEqual([
      'The places on the tape do not run from the top down. Is one misread?',
    ]);
    expect(says('2.0 43.1 119.2 cm')[0]).toContain('of core lie along the tape');
  });

  it('a feature and a scratch lie in their piece; the likely slip is offered', () => {
    const { phone, first, asked } = bench();
    expect(asked('feature', { piece: first, what: 'dust', end: 'top', at: '380 mm' })).toEqual([]);
    const [beyond] = asked('feature', { piece: first, what: 'dust', end: 'top', at: '480 mm' });
    expect(beyond?.says).toContain('which is 41 cm long');
    expect(beyond?.likely).toContain('Misread by 10 cm: 380 mm');
    const scratch = phone.doubts({ do: 'add', thing: first, readings: { catcherMark: '52 cm' } });
    expect(scratch.map((one) => one.field)).toEqual(['catcherMark']);
  });

  it('the counter at a mark of the cable is near it', () => {
    const { run, asked } = bench();
    expect(asked('cable check', { afterRun: run, mark: '90 m', counter: '90.31 m' })).toEqual([]);
    const [off] = asked('cable check', { afterRun: run, mark: '90 m', counter: '99.3 m' });
    expect(off).toMatchObject({ field: 'counter' });
  });

  it('a zero measured again stands about where it stood, and nobody measures below the bottom', () => {
    const { phone, hole, asked } = bench();
    const zero = phone.book.holeView(hole)!.zeros[0]!.id;
    expect(asked('zero check', { zero, height: '-3 cm' })).toEqual([]);
    expect(asked('zero check', { zero, height: '31 cm' })[0]?.says).toContain('Has it moved?');
    expect(asked('inclination', { depth: '1.2 m', angle: '1.4' })).toEqual([]);
    expect(asked('inclination', { depth: '12 m', angle: '1.4' })[0]?.field).toBe('depth');
  });

  it('what stood in the hole and what was drilled have to fit into the barrel', () => {
    const { asked } = bench();
    expect(asked('run', { number: '2', from: '0.90 m', to: '1.80 m' })).toEqual([]);
    const [full] = asked('run', { number: '2', from: '0.90 m', to: '2.00 m' });
    expect(full?.says).toBe('1.30 m of core would have been in a barrel that holds 1.15 m. Is it right?');
  });

  it('a run that counts from a higher zero does not seem to jump', () => {
    const { phone, hole, asked } = bench();
    const higher = phone.log('zero', { surface: 'board set anew', height: '31 cm' }, hole);
    // The counter reads 31 cm more from here on.
    phone.do({
      do: 'add',
      thing: phone.book.holeView(hole)!.runs[0]!.id,
      readings: { zero: phone.book.holeView(hole)!.zeros[0]!.id },
    });
    expect(asked('run', { number: '2', from: '1.21 m', to: '2.01 m', zero: higher })).toEqual([]);
    expect(asked('run', { number: '2', from: '1.21 m', to: '2.01 m', zero: 'Zero 1' })[0]?.field).toBe(
      'from',
    );
  });

  it('what ends does so after it began', () => {
    const { asked } = bench();
    const times = { began: '2026-06-14T12:00:00+05:45', ended: '2026-06-14T11:00:00+05:45' };
    const [swapped] = asked('contamination', { source: 'generator', ...times }, true);
    expect(swapped).toMatchObject({ field: 'ended', likely: ['Swapped: the other way round'] });
  });

  it('snow off the wall is no core: not in its numbers, not in its length, laid on the tray or not', () => {
    const { phone, hole } = opened('phone');
    const run = phone.log('run', { number: '1', from: '0 m', to: '0.90 m' }, hole);
    const piece = (readings: Readings) => {
      const command = {
        do: 'log',
        kind: 'piece',
        hole,
        run,
        readings: { topBreak: 'fits', ...readings },
      } as const;
      const doubts = phone.doubts(command);
      phone.do(command);
      return doubts.map((one) => one.field);
    };
    expect(piece({ number: '3', length: '30 cm', ice: 'wall snow' })).toEqual([]);
    expect(piece({ number: '1', length: '44 cm' })).toEqual([]);
    expect(piece({ number: '2', length: '44 cm' })).toEqual([]);
    // The number after the last core is taken by the snow: the next free one is right.
    expect(piece({ number: '4', length: '4 cm' })).toEqual([]);
    expect(piece({ number: '6', length: '40 cm' })).toEqual(['number', 'length']);
    const tray = (positions: string) =>
      phone
        .doubts({ do: 'log', kind: 'tray', hole, readings: { run, positions } })
        .map((one) => one.what.key);
    phone.do({ do: 'withdraw', thing: phone.book.holeView(hole)!.runs[0]!.pieces[4]!.id, reason: 'no' });
    expect(tray('0 44 88 92 cm')).toEqual([]);
    expect(tray('0 44 88 118 122 cm')).toEqual([]);
    expect(tray('0 44 118 cm')).toEqual(['doubt.tray.count']);
  });

  it('ice ground away is told as a loss too', () => {
    const { run, asked } = bench();
    const piece = { run, number: '3', length: '2 cm', loss: '1 cm' };
    expect(asked('piece', { ...piece, topBreak: 'ground' })).toEqual([]);
    expect(asked('piece', { ...piece, topBreak: 'fits' })[0]?.field).toBe('loss');
  });

  it('more core than was drilled is explained by what the runs before left: by tape, tray, stub, or nobody knows', () => {
    const second = (pieces: readonly Readings[], run: Readings = {}, positions?: string) => {
      const { phone, hole } = opened('phone');
      const first = phone.log('run', { number: '1', from: '0', to: '0.90 m', ...run }, hole);
      pieces.forEach((one, index) => {
        phone.log('piece', { number: String(index + 1), topBreak: 'fits', ...one }, hole, first);
      });
      if (positions !== undefined) phone.log('tray', { run: first, positions }, hole);
      const next = phone.log('run', { number: '2', from: '0.90 m', to: '1.80 m' }, hole);
      const asks = (length: string) =>
        phone
          .doubts({
            do: 'log',
            kind: 'piece',
            hole,
            run: next,
            readings: { number: '1', topBreak: 'fits', length },
          })
          .some((one) => one.field === 'length');
      // The longest core, in whole centimetres, that raises no question.
      return Array.from({ length: 120 }, (_, cm) => cm).findLast((cm) => !asks(`${cm} cm`));
    };
    expect(second([{ length: '90 cm' }])).toBe(93);
    expect(second([{ length: '80 cm' }])).toBe(103);
    // Lost ice did not stay in the hole; snow off the wall was never core.
    expect(second([{ length: '80 cm', topBreak: 'loss', loss: '10 cm' }])).toBe(93);
    expect(second([{ length: '80 cm' }, { length: '10 cm', ice: 'wall snow' }])).toBe(103);
    expect(second([{}, {}], {}, '2 45 82 cm')).toBe(103);
    expect(second([{ length: '90 cm' }], { stub: '20 cm' })).toBe(113);
    // Crumbled, or the counter was not read.
    expect(second([{ ice: 'crumbled' }])).toBe(108);
    expect(second([{ length: '90 cm' }], { to: '' })).toBe(108);
  });

  it('a tray after a stub may be longer than its run', () => {
    const { phone, hole } = opened('phone');
    phone.log('run', { number: '1', from: '0', to: '0.90 m', stub: '20 cm' }, hole);
    const run = phone.log('run', { number: '2', from: '0.90 m', to: '1.80 m' }, hole);
    const tray = (positions: string) =>
      phone.doubts({ do: 'log', kind: 'tray', hole, readings: { run, positions } });
    expect(tray('0 110 cm')).toEqual([]);
    expect(tray('0 120 cm')).toHaveLength(1);
  });

  it('a run may be as long as the barrel that is named holds', () => {
    const { phone, hole } = opened('phone');
    phone.log('set-up', { name: 'deep drill', barrel: '3.2 m' });
    const asks = (to: string) =>
      phone.doubts({ do: 'log', kind: 'run', hole, readings: { number: '1', from: '0 m', to } });
    expect(asks('3.1 m')).toEqual([]);
    expect(asks('3.5 m').map((one) => one.what.key)).toEqual(['doubt.barrel']);
  });

  it('a correction of a run from before the zero was set anew is held against the zero of its day', () => {
    const { phone, hole } = opened('phone');
    phone.at = '2026-06-14T10:00:00+05:45';
    phone.log('run', { number: '1', from: '0 m', to: '0.90 m' }, hole);
    const second = phone.log('run', { number: '2', from: '0.90 m', to: '1.80 m' }, hole);
    phone.at = '2026-06-15T10:00:00+05:45';
    const board = phone.log('zero', { surface: 'board set anew', height: '31 cm' }, hole);
    const readings = { from: '0.91 m' };
    expect(phone.doubts({ do: 'correct', thing: second, readings, reason: 'read again' })).toEqual([]);
    // A board that nobody measured: where its counter begins, nobody can tell.
    phone.log('zero', { surface: 'board after the storm' }, hole);
    const next = { number: '3', from: '2.60 m', to: '3.4 m' };
    expect(phone.doubts({ do: 'log', kind: 'run', hole, readings: next })).toEqual([]);
    expect(phone.doubts({ do: 'log', kind: 'run', hole, readings: { ...next, zero: board } })[0]?.field).toBe(
      'from',
    );
  });

  it('a weighted tape comes to rest on the ice that still stands', () => {
    const { phone, hole } = opened('phone');
    const first = phone.log('run', { number: '1', from: '0 m', to: '0.90 m', stub: '30 cm' }, hole);
    const empty = { number: '2', from: '0.90 m', to: '1.80 m', recovered: 'nothing' };
    const second = phone.log('run', empty, hole);
    const asks = (afterRun: string, depth: string) =>
      phone.doubts({ do: 'log', kind: 'sounding', hole, readings: { afterRun, depth } }).length;
    expect([asks(first, '0.61 m'), asks(first, '0.91 m'), asks(first, '0.40 m')]).toEqual([0, 0, 1]);
    expect([asks(second, '0.92 m'), asks(second, '1.79 m'), asks(second, '2.0 m')]).toEqual([0, 0, 1]);
  });

  it('a piece that the tray tape of its run has no place for takes the tape out: asked; snow off the wall does not', () => {
    const { phone, hole, run, asked } = bench();
    phone.log('tray', { run, positions: '2.0 43.1 89.2 cm' }, hole);
    const piece = { run, number: '3', topBreak: 'fits' };
    expect(asked('piece', piece)).toMatchObject([{ field: 'run' }]);
    expect(asked('piece', { ...piece, ice: 'wall snow' })).toEqual([]);
    phone.log('piece', { ...piece, ice: 'wall snow', length: '5 cm' }, hole);
    expect(
      depthReadings(phone.book.holeView(hole)!, phone.book.view()).runs[0]!.trayTape?.breaks,
    ).toHaveLength(2);
  });
});
