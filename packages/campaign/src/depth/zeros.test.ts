import { solveDepths } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { depthAssumptions } from './assumptions.ts';
import { depthReadings } from './readings.ts';

/** Invented: three runs, the third by a board set 31 cm higher, measured twice. */
function snowed() {
  const { phone, hole } = opened('phone');
  const first = phone.book.holeView(hole)!.zeros[0]!.id;
  const runs = [
    phone.log('run', { number: '1', from: '0 m', to: '0.87 m' }, hole),
    phone.log('run', { number: '2', from: '0.87 m', to: '1.74 m' }, hole),
  ];
  const board = phone.log('zero', { surface: 'board set anew', height: '31 cm' }, hole);
  const check = phone.log('zero check', { zero: board, height: '31.4 cm' }, hole);
  runs.push(phone.log('run', { number: '3', from: '2.05 m', to: '2.92 m', zero: board }, hole));
  const readings = () => depthReadings(phone.book.holeView(hole)!, phone.book.view());
  const solved = () => solveDepths(readings(), depthAssumptions(phone.book.holeView(hole)!));
  const heights = () => readings().zeros?.map(({ id, height }) => [id, Number(height.toFixed(3))]);
  return { phone, hole, first, runs, board, check, readings, solved, heights };
}

describe('zeroReadings', () => {
  it('a run that names a zero which was joined into another one counts from that one', () => {
    const { phone, hole, runs, board, readings, solved, heights, first } = snowed();
    const tablet = phone.log('zero', { surface: 'the same new board', height: '30.6 cm' }, hole);
    const check = phone.log('zero check', { zero: tablet, height: '31.2 cm' }, hole);
    phone.do({ do: 'correct', thing: runs[2]!, readings: { zero: tablet }, reason: 'this one' });
    phone.do({ do: 'join', into: board, from: tablet, readings: { height: '31 cm' }, reason: 'one board' });
    expect(readings().runs[2]!.zero).toBe(board);
    // The height that settles the join, and both checks: the one of the joined zero too.
    expect(heights()).toEqual([
      [first, 0],
      [board, 0.312],
    ]);
    expect(solved().runs).toHaveLength(3);
    phone.do({ do: 'withdraw', thing: check, reason: 'misread' });
    phone.log('zero check', { zero: board, height: '31.2 cm' }, hole);
    expect(heights()![1]).toEqual([board, 0.312]);
  });

  it('a run that names a withdrawn zero counts from the latest that stands; the hole is still solved', () => {
    const { phone, hole, board, readings, solved, heights, first } = snowed();
    const third = phone.log('zero', { surface: 'stake', height: '40 cm' }, hole);
    phone.do({ do: 'withdraw', thing: board, reason: 'was never set' });
    expect(readings().runs.map((run) => run.zero)).toEqual([undefined, undefined, undefined]);
    expect(heights()).toEqual([
      [first, 0],
      [third, 0.4],
    ]);
    expect(solved().runs).toHaveLength(3);
    phone.do({ do: 'restore', thing: board, reason: 'it was' });
    expect(readings().runs[2]!.zero).toBe(board);
  });

  it('where the first zero is withdrawn, heights are told above the first that stands', () => {
    const { phone, hole, first, board, heights } = snowed();
    const third = phone.log('zero', { surface: 'stake', height: '51.2 cm' }, hole);
    phone.do({ do: 'withdraw', thing: first, reason: 'another hole' });
    // The board was measured at 31.0 and 31.4 cm.
    expect(heights()).toEqual([
      [board, 0],
      [third, 0.2],
    ]);
  });

  it('a height that no board can have is no reading, and the height is as good as not measured', () => {
    const { phone, board, check, readings } = snowed();
    phone.do({ do: 'correct', thing: board, readings: { height: '31000 m' }, reason: 'a slip' });
    phone.do({ do: 'withdraw', thing: check, reason: 'misread' });
    expect(readings().zeros![1]).toMatchObject({ id: board, height: 0, sd: 1 });
  });
});
