import { describe, expect, it } from 'vitest';
import { seeded } from '../random/index.ts';
import {
  factorise,
  inverseNormal,
  rankOf,
  rotate,
  rotateBack,
  solveLower,
  solveUpper,
} from './householder.ts';

const { normal } = seeded(31);
/** 7 by 4, the columns of very unlike length. */
const matrix = Float64Array.from({ length: 28 }, (_, i) => normal() * 10 ** (3 * Math.floor(i / 7) - 4));
const qr = factorise(matrix, 7, 4);

describe('factorise', () => {
  it('turns back what it turned, and keeps lengths', () => {
    const v = Float64Array.of(1, -2, 3, -4, 5, -6, 7);
    const turned = v.slice();
    rotate(qr, turned);
    expect(Math.hypot(...turned)).toBeCloseTo(Math.hypot(...v), 13);
    rotateBack(qr, turned);
    v.forEach((value, i) => {
      expect(turned[i]).toBeCloseTo(value, 13);
    });
  });
  it('R solves what it makes: forwards and backwards', () => {
    const right = Float64Array.of(0.3, -1.2, 0.7, 2.5);
    const z = right.slice();
    solveUpper(qr, z);
    // R^T R z by the normal matrix of the scaled columns, in the order of the factorisation
    const scaled = (k: number, i: number) => matrix[qr.order[k] * 7 + i] / qr.lengths[qr.order[k]];
    const gram = z.map((_, a) => {
      let sum = 0;
      for (let b = 0; b < 4; b++) for (let i = 0; i < 7; i++) sum += scaled(a, i) * scaled(b, i) * z[b];
      return sum;
    });
    solveLower(qr, gram);
    right.forEach((value, k) => {
      expect(gram[k]).toBeCloseTo(value, 12);
    });
  });
  it('the inverse of the normal matrix is its inverse', () => {
    const inverse = inverseNormal(qr);
    for (let a = 0; a < 4; a++)
      for (let c = 0; c < 4; c++) {
        let sum = 0;
        for (let b = 0; b < 4; b++)
          for (let i = 0; i < 7; i++) sum += matrix[a * 7 + i] * matrix[b * 7 + i] * inverse[b][c];
        // in the scale of the columns
        expect((sum * qr.lengths[c]) / qr.lengths[a]).toBeCloseTo(a === c ? 1 : 0, 10);
      }
  });
  it('counts the columns that are independent', () => {
    expect(rankOf(qr)).toBe(4);
    const dependent = matrix.slice();
    for (let i = 0; i < 7; i++) dependent[21 + i] = 3 * dependent[i] - 2 * dependent[7 + i];
    expect(rankOf(factorise(dependent, 7, 4))).toBe(3);
    expect(rankOf(factorise(new Float64Array(14), 7, 2))).toBe(0);
  });
});
