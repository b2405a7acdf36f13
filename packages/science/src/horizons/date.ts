import type { Horizon } from './table.ts';

/**
 * The date of a horizon in ice, as decimal year CE: the middle of the years of its deposition, with the spread of an even
 * distribution over them, whole years both.
 *
 * Source: JCGM 100:2008, 4.3.7 (rectangular distribution).
 */
export const horizonDate = ({
  deposition: { from, to },
}: Horizon): { readonly year: number; readonly sd: number } => ({
  year: (from + to + 1) / 2,
  sd: (to - from + 1) / Math.sqrt(12),
});
