import { solveDepths } from '@firnbook/science/depth';
import { diff, solvedNow } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { opened } from '../device.suite.ts';
import { changeOrder } from './change-order.ts';
import { depthReadings } from './readings.ts';

describe('changeOrder', () => {
  it('is that of the entries: the last correction is the last cause, wherever in the hole it is', () => {
    const { phone, hole } = opened('phone');
    const runs = [0, 1, 2].map((i) =>
      phone.log('run', { number: `${i + 1}`, from: `${0.9 * i} m`, to: `${0.9 * (i + 1)} m` }, hole),
    );
    const pieces = runs.map((run) =>
      phone.log('piece', { number: '1', length: '88 cm', topBreak: 'fits' }, hole, run),
    );
    const state = () => {
      const readings = depthReadings(phone.book.holeView(hole)!, phone.book.view());
      return solvedNow(readings, solveDepths(readings));
    };
    const before = state();
    const correct = (thing: string, length: string) =>
      phone.do({ do: 'correct', thing, readings: { length }, reason: 'measured again' });
    correct(pieces[2]!, '87 cm');
    const sounding = phone.log('sounding', { afterRun: runs[2]!, depth: '2.69 m' }, hole);
    correct(pieces[0]!, '89 cm');
    const { changes } = diff(before, state(), changeOrder(phone.book.holeView(hole)!));
    expect(changes.map((change) => ('which' in change ? change.which : change.kind))).toEqual([
      pieces[2],
      sounding,
      pieces[0],
    ]);
    const unordered = diff(before, state()).changes.map((change) => ('which' in change ? change.which : ''));
    expect(unordered).toEqual([pieces[0], pieces[2], sounding]);
  });
});
