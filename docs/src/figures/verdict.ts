import type { Chart } from '@firnbook/drawing';
import { solveDepths } from '@firnbook/science/depth';
import { verdict } from '@firnbook/science/depth-scales';

/** The page's worked example, told after 12, 32, ... of its runs. */
const after = [12, 32, 52, 72, 92];

const told = after.map((count) => {
  const runs = Array.from({ length: count }, (_, i) => ({ id: `${i + 1}`, from: i, to: i + 1 }));
  const pieces = runs.flatMap(({ id }) => [
    { id: `${id}-1`, run: id, length: 0.485, topBreak: 'unsure' } as const,
    { id: `${id}-2`, run: id, length: 0.495, topBreak: 'unsure' } as const,
  ]);
  const readings = { runs, pieces, soundings: [] };
  return { depth: count, checks: verdict(readings, solveDepths(readings), 1.1)?.checks ?? [] };
});
const line = (kind: string, when: 'before' | 'after') =>
  told.flatMap(({ depth, checks }) => {
    const check = checks.find((one) => one.kind === kind);
    return check === undefined ? [] : [[depth, 100 * check[when]] as const];
  });

export const chart: Chart = {
  title: 'What a check now would make of the doubt about the hole’s bottom',
  x: { label: 'depth of the hole', unit: 'm', from: 0, to: 100 },
  y: { label: 'standard deviation of its bottom', unit: 'cm', from: 0, to: 16 },
  curves: [
    { label: 'no check', at: line('sounding', 'before') },
    { label: 'sounding', at: line('sounding', 'after') },
    { label: 'cable mark', dashed: true, at: line('cable mark', 'after') },
  ],
};
