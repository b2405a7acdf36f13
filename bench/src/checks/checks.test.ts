import { describe, expect, it } from 'vitest';
import { differences, shifted } from './compare.ts';
import { judge } from './judge.ts';
import { ownSheet, referenceSheet } from './sheet.ts';
import { limitOf } from './tolerance.ts';

/** Entries that must be computed by functions of ours. */
const LEAST = 380;

const sheets = [
  ['the numbers that stand in the project', ownSheet()],
  ['the reference sheet beside the project', referenceSheet()],
] as const;

for (const [name, sheet] of sheets)
  describe.skipIf(sheet === null)(`published numbers: ${name}`, () => {
    const judged = (sheet ?? []).map(judge);
    it('none fails at its own tolerance', () => {
      expect(
        judged.filter(({ state }) => state === 'fail').map(({ id, because }) => [id, ...because]),
      ).toEqual([]);
    });

    it(`${LEAST} and more are computed; the others say why not`, () => {
      expect(judged.filter(({ state }) => state === 'pass').length).toBeGreaterThanOrEqual(LEAST);
      const left = judged.filter(({ state }) => state === 'not computed');
      expect(left.filter(({ because }) => because.includes('nobody wrote an evaluator'))).toEqual([]);
    });

    it('each one fails when its expected numbers are shifted by ten tolerances', () => {
      const blind = judged.filter(({ id, state, expected, computed, tolerance }) => {
        if (state !== 'pass') return false;
        const limit = limitOf(tolerance, id);
        const wrong = shifted(expected, limit, 10);
        // what is compared exactly is moved by more than rounding
        return differences(wrong, computed!, limit).length === 0;
      });
      expect(blind.map(({ id }) => id)).toEqual([]);
    });
  });

describe('the comparison', () => {
  it('wants every number that is expected', () => {
    const limit = limitOf('1e-6', 'x');
    expect(differences({ a: 1, b: [2, 3] }, { a: 1, b: [2, 3], c: 9 }, limit)).toEqual([]);
    expect(differences({ a: 1, b: [2, 3] }, { a: 1, b: [2] }, limit)).toHaveLength(1);
    expect(differences({ a: 1 }, { b: 1 }, limit)).toHaveLength(1);
    expect(differences(1, Number.NaN, limit)).toHaveLength(1);
    expect(differences('2026-W01-1', '2026-W01-2', limit)).toHaveLength(1);
  });

  it('reads a bare tolerance strictly: absolute above 1, relative below', () => {
    expect(limitOf('1e-6', 'x')(583.123456789, '')).toBeCloseTo(1e-6, 12);
    expect(limitOf('1e-6', 'x')(0.00123456789, '')).toBeCloseTo(1.23456789e-9, 15);
    expect(limitOf('1e-6', 'x')(0.25, '')).toBe(0.25e-6);
    expect(limitOf('1e-6 rel', 'x')(2000, '')).toBeCloseTo(2e-3, 12);
  });

  it('asks no more than half a printed digit of a number that was rounded to be printed, all of one that was not', () => {
    expect(limitOf('exact', 'x')(3.3333, '')).toBeCloseTo(0.5001e-4, 9);
    expect(limitOf('1e-6 rel', 'x')(0.000169, '')).toBeCloseTo(0.5001e-6, 11);
    expect(limitOf('1e-9', 'x')(0.00624, '')).toBeCloseTo(0.5001e-5, 10);
    for (const whole of [6185, 2.5, 0.125, 49.5])
      expect(limitOf('exact', 'x')(whole, '')).toBeLessThan(1e-11);
  });

  it('takes the tolerance that stands beside the name of a data set; of a published 0 as it is', () => {
    const text = 'Norris 1e-11, Wampler1 1e-8';
    expect(limitOf(text, 'StRD.Wampler1')(3, 'b')).toBeCloseTo(3e-8, 15);
    expect(limitOf(text, 'StRD.Wampler1')(0, 'se')).toBe(1e-8);
    expect(limitOf(text, 'StRD.Norris')(2, 'b')).toBeCloseTo(2e-11, 18);
  });

  it('knows no other writing', () => {
    expect(limitOf('2 significant digits', 'x')(2.4e-24, '')).toBeCloseTo(5e-26, 30);
    expect(() => limitOf('near enough', 'x')).toThrow(/not understood/);
  });
});
