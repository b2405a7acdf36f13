import type { Chart } from '@firnbook/drawing';
import { solveDepths } from '@firnbook/science/depth';
import { inventedSeason } from '../invented-season.ts';

const seasons = 60;
/** Metres of depth that are taken together. */
const bin = 5;
const deepest = 75;

/** Root mean squares of what the solver says of piece bottoms and of what they were off by, centimetres by depth. */
const solved = (soundings: number) => {
  const bins = Array.from({ length: deepest / bin }, (_, at) => ({
    depth: (at + 0.5) * bin,
    count: 0,
    said: 0,
    off: 0,
  }));
  for (let seed = 1; seed <= seasons; seed += 1) {
    const { readings, truth } = inventedSeason(seed, soundings);
    const place = new Map(truth.pieceIds.map((id, at) => [id, truth.bottom[at]]));
    for (const { id, bottom } of solveDepths(readings).pieces) {
      const own = place.get(id);
      const there = own === undefined ? undefined : bins[Math.floor(own / bin)];
      if (own === undefined || there === undefined) continue;
      there.count += 1;
      there.said += bottom.sd ** 2;
      there.off += (bottom.value - own) ** 2;
    }
  }
  const line = (of: 'said' | 'off') =>
    bins.map((one) => [100 * Math.sqrt(one[of] / one.count), one.depth] as const);
  return { said: line('said'), off: line('off') };
};
const without = solved(0);
const sounded = solved(3);

export const chart: Chart = {
  title: `Solved bottoms of pieces in ${seasons} invented seasons (root mean squares)`,
  x: { label: 'standard deviation, error', unit: 'cm', from: 0, to: 20 },
  y: { label: 'depth', unit: 'm', from: 80, to: 0 },
  curves: [
    { label: 'sd without soundings', at: without.said },
    { label: 'sd with three', at: sounded.said },
    { label: 'error without soundings', dashed: true, at: without.off },
    { label: 'error with three', dashed: true, at: sounded.off },
  ],
};
