import { type Factor, forward } from './cholesky.ts';
import type { Equation, Shift } from './equations.ts';

/** 5 % false alarm (two-sided) and 80 % power: 1.960 + 0.842 standard deviations. */
const NON_CENTRALITY = 2.8016;

/**
 * Smallest bias that a least-squares adjustment sees (W. Baarda 1968, minimal detectable bias), metres; infinite
 * where the unknowns take it up whole.
 *
 * @param factor of the normal matrix
 * @param shifts readings that the bias moves, and by how much of it
 */
export const smallestSeen = (factor: Factor, list: readonly Equation[], shifts: readonly Shift[]): number => {
  const wanted = new Map(shifts.map(({ reading, by }) => [reading, by]));
  // in standard deviations: how far the equations move, and what of that the unknowns follow
  const taken = new Float64Array(factor.size);
  let whole = 0;
  for (const { terms, sd, readings } of list) {
    let moved = 0;
    for (const { reading, by } of readings) moved += by * (wanted.get(reading) ?? 0);
    if (moved === 0) continue;
    whole += (moved / sd) ** 2;
    for (const [place, x] of terms) taken[place] += (x * moved) / sd ** 2;
  }
  const rest = whole - forward(factor, taken).reduce((sum, y) => sum + y * y, 0);
  return rest > 1e-9 * whole ? NON_CENTRALITY / Math.sqrt(rest) : Number.POSITIVE_INFINITY;
};
