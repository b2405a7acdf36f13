import { Global, type Net } from './net.ts';

/** Inverse of the covariance of (from, to, sounding) of run r, fill left out: 11, 12, 22, 33. Absent ones are 0. */
export const readingWeights = (net: Net, r: number, out: Float64Array, at = 0): void => {
  const own = net.readingVariance + net.offsetVariance;
  const from = !Number.isNaN(net.from[r]);
  const to = !Number.isNaN(net.to[r]);
  out[at] = out[at + 1] = out[at + 2] = 0;
  if (from && to) {
    const determinant = own * own - net.offsetVariance * net.offsetVariance;
    out[at] = out[at + 2] = own / determinant;
    out[at + 1] = -net.offsetVariance / determinant;
  } else if (from) out[at] = 1 / own;
  else if (to) out[at + 2] = 1 / own;
  out[at + 3] = Number.isNaN(net.sounding[r]) ? 0 : 1 / net.soundingVariance[r];
};

/** Present offset of the counter readings of run r: of all zeros that were moved before it. */
export const zeroOffset = (net: Net, r: number, global: Float64Array): number => {
  let sum = 0;
  for (let s = 0; s < net.zeros.length; s++) if (net.zeros[s] <= r) sum += global[Global.zero + s];
  return sum;
};
