import { describe, expect, it } from 'vitest';
import { factorise, solveWith } from './cholesky.ts';

describe('dense Cholesky', () => {
  it('factors the textbook example [[4, 12, -16], [12, 37, -43], [-16, -43, 98]] (widely printed; from memory)', () => {
    const { lower } = factorise(Float64Array.from([4, 12, -16, 12, 37, -43, -16, -43, 98]), 3);
    expect([...lower]).toEqual([2, 0, 0, 6, 1, 0, -8, 5, 3]);
  });
  it('solves for a known answer', () => {
    const factor = factorise(Float64Array.from([4, 12, -16, 12, 37, -43, -16, -43, 98]), 3);
    const x = solveWith(factor, Float64Array.from([4 + 24 - 48, 12 + 74 - 129, -16 - 86 + 294]));
    expect([...x].map((value) => Math.round(value * 1e9) / 1e9)).toEqual([1, 2, 3]);
  });
  it('refuses a matrix that is not positive definite and says which unknown is loose', () => {
    expect(() => factorise(Float64Array.from([1, 1, 1, 1]), 2)).toThrow('unknown 1');
  });
});
