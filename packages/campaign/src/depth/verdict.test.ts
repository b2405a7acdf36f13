import type { Finding } from '@firnbook/science/depth';
import type { Verdict } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { sayEnglish } from '../texts/say-english.ts';
import { verdictSentences } from './verdict.ts';

const closing = {
  advance: 0.87,
  core: 0.84,
  lost: 0.002,
  unseen: 0,
  chips: 0.02,
  stubBefore: 0,
  stub: 0.031,
  difference: -0.004,
  tolerance: 0.043,
  closes: true,
};
const cable = { kind: 'cable mark', which: 'r34', at: 92, before: 0.142, after: 0.041 } as const;
const verdict: Verdict = {
  run: 'r34',
  closing,
  lookAgain: [],
  measureAgain: [],
  longest: { length: 0.95, barrel: 1, stub: 0.05 },
  checks: [cable],
  best: cable,
};
const names: Readonly<Record<string, string>> = { r34: 'B-R034', p1: 'B-P034.1', r33: 'B-R033' };
const said = (changed: Partial<Verdict>) =>
  verdictSentences({ ...verdict, ...changed }, (id) => names[id] ?? id).map(sayEnglish);

describe('verdictSentences in English', () => {
  it('say what closes, the longest next run, and the check that helps most', () => {
    expect(said({})).toEqual([
      'B-R034 closes within 4 cm: 0.87 m drilled, 0.84 m of core, 0.2 cm lost, 3 cm left in the hole.',
      'Longest next run 0.95 m: the barrel holds 1.00 m, and up to 5 cm may stand in the hole.',
      'A cable mark check at 92 m would bring the depth error from 14 cm to 4 cm.',
    ]);
  });

  it('say what does not close, and what to look for', () => {
    expect(said({ closing: { ...closing, closes: false, difference: -0.123 } })[0]).toBe(
      'B-R034 does not close: 12 cm more ice came up than it can hold (tolerance 4 cm). Measure the lengths again and look at the counter.',
    );
    expect(said({ closing: { ...closing, closes: false, difference: 0.2 } })[0]).toContain(
      '20 cm of what was drilled is neither core nor loss nor stub',
    );
    expect(said({ closing: { ...closing, stubBefore: 0.3 } })[0]).toContain('and 30 cm left before it');
    expect(said({ closing: null })[0]).toBe(
      'Whether B-R034 closes cannot be told: the counter or a length was not read.',
    );
  });

  it('send people back to a reading, with the likely slip and what it may have been', () => {
    const finding: Finding = {
      what: 'piece',
      which: 'p1',
      field: 'length',
      size: 0.098,
      likely: '10 cm',
      probability: 0.9,
      detectable: 0.05,
      suggested: 0.745,
    };
    expect(said({ lookAgain: [finding] })[1]).toBe(
      'Look again at length of B-P034.1: off by 9.8 cm. Most likely a slip of 10 cm. It may have been 74.5 cm.',
    );
    const { suggested: _, ...without } = finding;
    expect(
      said({
        lookAgain: [{ ...without, field: 'run', likely: 'run attributed wrongly', suggestedRun: 'r33' }],
      })[1],
    ).toBe(
      'Look again at run of B-P034.1: off by 9.8 cm. Most likely it was logged under the wrong run: see B-R033.',
    );
  });

  it('a length worth measuring again is told once; a barrel that may be full is told as such', () => {
    const length = { kind: 'length', which: 'p1', at: 3, before: 0.03, after: 0.02 } as const;
    const words = said({
      measureAgain: [length],
      best: length,
      checks: [length],
      longest: { length: 0, barrel: 1, stub: 1.2 },
    });
    expect(words.slice(1)).toEqual([
      'Measure B-P034.1 again while it lies on the bench: that would bring the depth error from 3 cm to 2 cm.',
      'The barrel may be full at once: it holds 1.00 m, and up to 120 cm may stand in the hole. Fetch that first.',
    ]);
  });

  it('no check that helps: the error is told, and nothing of a barrel that nobody knows', () => {
    expect(said({ best: null, longest: null })).toEqual([
      expect.stringContaining('closes'),
      'The bottom is known to 14 cm; no check would make that much better.',
    ]);
  });
});
