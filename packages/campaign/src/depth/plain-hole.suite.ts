import { solveDepths } from '@firnbook/science/depth';
import { opened } from '../device.suite.ts';
import { depthReadings } from './readings.ts';

/** Three plain runs of one piece each, and their solution as it is when asked for. */
export function plainHole() {
  const { phone, hole } = opened('phone');
  const runs = [0, 1, 2].map((i) =>
    phone.log('run', { number: `${i + 1}`, from: `${0.9 * i} m`, to: `${0.9 * (i + 1)} m` }, hole),
  );
  const pieces = runs.map((run) =>
    phone.log('piece', { number: '1', length: '88 cm', topBreak: 'fits' }, hole, run),
  );
  const solve = () => {
    const view = phone.book.holeView(hole)!;
    const readings = depthReadings(view, phone.book.view());
    return { view, readings, solution: solveDepths(readings) };
  };
  return { phone, hole, runs, pieces, solve };
}
