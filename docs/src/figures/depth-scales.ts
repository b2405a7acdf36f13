import type { Chart } from '@firnbook/drawing';
import { solveDepths } from '@firnbook/science/depth';
import { drillerScale, loggerScale, type ScaleOfHole, solvedScale } from '@firnbook/science/depth-scales';
import { inventedSeason } from '../invented-season.ts';

const { readings } = inventedSeason(34, 3);
const solution = solveDepths(readings);
const hole = 'B';
const solved = solvedScale(hole, solution, 'now');

/** Centimetres by which a scale's place lies below the solved one, by solved depth. */
const off = ({ at }: ScaleOfHole) =>
  solved.at.flatMap((depth, place) => {
    const own = at[place];
    return depth === null || own == null ? [] : [[100 * (own - depth), depth] as const];
  });

/** Standard deviations of the solved scale, by its depth. */
const edge = (times: number) =>
  solution.pieces.map(({ bottom }) => [times * bottom.sd, bottom.value] as const);

export const chart: Chart = {
  title: 'Depth of the same ice on three scales of one invented hole',
  x: { label: 'depth less solved depth', unit: 'cm', from: -40, to: 60 },
  y: { label: 'solved depth', unit: 'm', from: 80, to: 0 },
  curves: [
    { label: 'driller', at: off(drillerScale(hole, readings, solution)) },
    { label: 'logger', at: off(loggerScale(hole, readings, solution)) },
    { label: 'solved − 2 sd', dashed: true, at: edge(-200) },
    { label: 'solved + 2 sd', dashed: true, at: edge(200) },
  ],
};
