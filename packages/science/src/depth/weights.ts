import { Global } from './global.ts';
import type { Net } from './net.ts';

/** Inverse of the covariance of (from, to, sounding) of a row, fill left out: 11, 12, 22, 33. Absent ones are 0. */
export const readingWeights = (net: Net, row: number, out: Float64Array, at = 0): void => {
  const shared = net.unknowns.offsetVariance[row];
  const own = net.readingVariance + shared;
  const from = !Number.isNaN(net.from[row]);
  const to = !Number.isNaN(net.to[row]);
  out[at] = out[at + 1] = out[at + 2] = 0;
  if (from && to) {
    const determinant = own * own - shared * shared;
    out[at] = out[at + 2] = own / determinant;
    out[at + 1] = -shared / determinant;
  } else if (from) out[at] = 1 / own;
  else if (to) out[at + 2] = 1 / own;
  out[at + 3] = Number.isNaN(net.sounding[row]) ? 0 : 1 / net.soundingVariance[row];
};

/**
 * What the counter of every row makes of a true depth D, at the present globals and drift of the scale:
 * scale x D + offset; and what is added to a sounding.
 */
export const gauge = (
  net: Net,
  global: Float64Array,
  drift: Float64Array,
  scale: Float64Array,
  offset: Float64Array,
  soundingOffset: Float64Array,
): void => {
  const all = 1 + global[Global.cable];
  for (let row = 0; row <= net.rows; row++) scale[row] = all + drift[row];
  const { ties } = net.unknowns;
  if (ties.column.length === 0) return;
  for (let row = 1; row <= net.rows; row++) {
    let inCounter = 0;
    let inSounding = 0;
    for (let i = ties.from[row]; i < ties.from[row + 1]; i++) {
      const value = global[ties.column[i]];
      inCounter += ties.counter[i] * value;
      inSounding += ties.sounding[i] * value;
    }
    offset[row] = inCounter;
    soundingOffset[row] = inSounding;
  }
};
