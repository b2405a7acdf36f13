import { expect, it } from 'vitest';
import { coreBreakForce } from './core-break.ts';

it('a core of 100 mm and 1 MPa breaks at 7853.98 N, half the diameter at a quarter (recomputed in Python)', () => {
  expect(coreBreakForce(0.1, 1e6)).toBeCloseTo(7853.982, 3);
  expect(coreBreakForce(0.05, 1e6)).toBeCloseTo(7853.982 / 4, 3);
});

it('a core break refuses megapascals for pascals and a core that has no diameter', () => {
  expect(() => coreBreakForce(0.1, 1)).toThrow(/tensile strength is 1 Pa/);
  expect(() => coreBreakForce(Number.NaN, 1e6)).toThrow(/diameter of the core is NaN m/);
});
