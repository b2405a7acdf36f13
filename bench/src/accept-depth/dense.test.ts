import { defaultAssumptions } from '@firnbook/science/depth';
import { seeded } from '@firnbook/science/random';
import { simulateSeason, usualPlan } from '@firnbook/science/simulate-season';
import quadprog from 'quadprog';
import { describe, expect, it } from 'vitest';
import { factorise, solveWith } from './cholesky.ts';
import { normalEquations, solveDense } from './dense.ts';
import { observeCore } from './dense-core.ts';
import { observeCounter } from './dense-counter.ts';
import { equations } from './equations.ts';
import { moments } from './moments.ts';

const season = simulateSeason(seeded(11), { ...usualPlan, runs: 30, habits: 'drawn' });

/** The same equations by quadprog, a dense quadratic program; it counts from 1 and wants a constraint. */
const byQuadprog = (matrix: Float64Array, right: Float64Array, size: number): number[] => {
  const rows = Array.from({ length: size + 1 }, (_, i) =>
    Array.from({ length: size + 1 }, (_, j) => (i === 0 || j === 0 ? 0 : matrix[(i - 1) * size + j - 1])),
  );
  const never = Array.from({ length: size + 1 }, (_, i) => [0, i === 1 ? 1 : 0]);
  const { solution } = quadprog.solveQP(rows, [0, ...right], never, [0, -1e6]);
  return solution.slice(1);
};

describe('the dense solution', () => {
  it('of a whole season is that of quadprog', () => {
    const e = equations();
    const surface = e.known(0, 1e-6);
    const hole = season.readings.runs.map(() => e.unknown());
    const m = moments(defaultAssumptions);
    observeCounter(e, season.readings, defaultAssumptions, m, { surface, hole });
    observeCore(e, season.readings, defaultAssumptions, m, { surface, hole });
    const { matrix, right } = normalEquations(e.list, e.size());
    const other = byQuadprog(matrix, right, e.size());
    const own = solveWith(factorise(matrix, e.size()), right);
    own.forEach((value, i) => {
      expect(Math.abs(value - other[i])).toBeLessThan(1e-6);
    });
  });
  it('gives every piece a top and a bottom, in order, near the truth', () => {
    const { top, bottom } = solveDense(season.readings, defaultAssumptions);
    season.truth.pieceIds.forEach((id, i) => {
      expect(top.get(id)).toBeLessThan(bottom.get(id) as number);
      expect(Math.abs((bottom.get(id) as number) - season.truth.bottom[i])).toBeLessThan(0.2);
    });
  });
  it('sees slips from some centimetres to decimetres, and none that no other reading speaks of', () => {
    const { detectable } = solveDense(season.readings, defaultAssumptions);
    const at = season.readings.runs[14].id;
    const seen = detectable([{ reading: `to ${at}`, by: 1 }]);
    expect(seen).toBeGreaterThan(0.03);
    expect(seen).toBeLessThan(0.3);
    expect(detectable([{ reading: 'no such reading', by: 1 }])).toBe(Number.POSITIVE_INFINITY);
  });
});
