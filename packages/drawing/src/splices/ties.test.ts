import { describe, expect, it } from 'vitest';
import type { SpliceRecord } from './splices.ts';
import { tiesBetween } from './ties.ts';

const record = (
  id: string,
  offset: number,
  dust: readonly number[],
  melt: readonly number[] = [],
): SpliceRecord => ({
  id,
  name: id,
  offset,
  sd: 0,
  ice: [],
  features: [
    ...dust.map((depth) => ({ id: `${id} dust ${depth}`, what: 'dust', top: depth, bottom: depth })),
    ...melt.map((depth) => ({ id: `${id} melt ${depth}`, what: 'melt layer', top: depth, bottom: depth })),
  ],
});

describe('tiesBetween', () => {
  it('matches the layers that the splice brings near each other, from the top down, each once', () => {
    const a = record('a', 0, [23.41, 41.36, 58.92]);
    const b = record('b', 0.42, [41.78, 23.84, 23.9]);
    expect(tiesBetween(b, a, 0.2).map(({ of, on }) => [of.feature, on.feature])).toEqual([
      ['b dust 23.84', 'a dust 23.41'],
      ['b dust 41.78', 'a dust 41.36'],
    ]);
  });

  it('leaves melt alone unless it is asked for, and never ties one kind to another', () => {
    const a = record('a', 0, [10], [12]);
    const b = record('b', 0, [12.01], [12.02]);
    expect(tiesBetween(b, a, 0.1)).toEqual([]);
    expect(tiesBetween(b, a, 0.1, ['dust', 'melt layer']).map(({ of }) => of.feature)).toEqual([
      'b melt 12.02',
    ]);
  });
});
