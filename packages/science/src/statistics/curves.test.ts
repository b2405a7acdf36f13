import { describe, expect, it } from 'vitest';
import { nonlinearSets } from './strd/nonlinear.ts';

describe('curves', () => {
  it('slopes of every curve are those of its values (central differences)', () => {
    for (const { name, curve, x, b } of nonlinearSets) {
      const slopes = new Float64Array(b.length);
      const at = x[Math.floor(x.length / 3)];
      curve.slopes(b, at, slopes);
      b.forEach((value, k) => {
        const h = 1e-5 * Math.abs(value);
        const beside = (by: number) =>
          curve.value(
            b.map((v, j) => (j === k ? v + by : v)),
            at,
          );
        const by = (beside(h) - beside(-h)) / (2 * h);
        expect(Math.abs(slopes[k] - by), `${name} ${k + 1}`).toBeLessThan(1e-6 * (1 + Math.abs(by)));
      });
    }
  });
});
