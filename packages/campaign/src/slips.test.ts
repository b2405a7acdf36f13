import { describe, expect, it } from 'vitest';
import type { MeasureField } from './kind.ts';
import { fieldOf, kindOf } from './kinds.ts';
import { likelySlips } from './slips.ts';

const piece = kindOf('piece')!;
const length = fieldOf(piece, 'length') as MeasureField;
const slips = (text: string, isRight: (metres: number) => boolean) =>
  likelySlips(text, length, piece, isRight).map((one) => one.readings.length!);
const near = (wanted: number) => (metres: number) => Math.abs(metres - wanted) < 0.006;
const texts = (text: string, wanted: number) => slips(text, near(wanted));

describe('likelySlips', () => {
  it.each([
    ['97,5 cm', 0.875, '87,5 cm'],
    ['775 mm', 0.875, '875 mm'],
    ['1.875 m', 0.875, '0.875 m'],
    ['78.5 cm', 0.875, '87.5 cm'],
    ['8,75 m', 0.0875, '8,75 cm'],
    ['87,5', 0.0875, '87,5 mm'],
    ['\u00a097,5cm', 0.875, '87,5 cm'],
  ])('of %s, wanted %f m: %s, in the unit, mark and digits as typed', (text, wanted, meant) => {
    expect(texts(text, wanted)).toContain(meant);
  });

  it('gives none that would not do, none below zero, none twice, three at most', () => {
    expect(texts('97,5 cm', 0.3)).toEqual([]);
    expect(slips('5 cm', () => true).every((one) => !one.startsWith('-'))).toBe(true);
    const all = slips('12,34 m', () => true);
    expect(all).toHaveLength(3);
    expect(new Set(all).size).toBe(3);
  });

  it('of what is no length gives none', () => {
    for (const text of ['', 'deep', '-', '1.2.3 m']) expect(slips(text, () => true)).toEqual([]);
  });
});
