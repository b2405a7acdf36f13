import type { DensityView } from '@firnbook/campaign';
import type { ScaleOfHole } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { densityPanel, scalePanel } from './panels.ts';

/** Invented: two pieces of hole B, the driller's depths 12 and 15 cm deeper than the solved ones. */
const places = ['top', 'bottom'].flatMap((end) => [{ piece: 'p1', run: 'r1', end: end as 'top' | 'bottom' }]);
const scale = (at: readonly (number | null)[], sd: readonly number[] | null): ScaleOfHole => ({
  hole: 'CER-B',
  scale: sd === null ? { name: 'driller' } : { name: 'solved', version: 'now' },
  places,
  at,
  sd,
  leftOut: [],
  filled: [],
  endsAt: null,
});

describe('scalePanel', () => {
  it('draws how far a scale lies below the solved one, in centimetres, over twice the solved deviation', () => {
    const solved = scale([29, 29.5], [0.01, 0.02]);
    const [band, line] = scalePanel('Driller − solved', scale([29.12, 29.65], null), solved, []).curves;
    expect(line!.points.map(({ depth, value }) => [depth, Math.round(value * 1e6) / 1e6])).toEqual([
      [29, 12],
      [29.5, 15],
    ]);
    expect(band!.points.map(({ low, high }) => [low, high])).toEqual([
      [-2, 2],
      [-4, 4],
    ]);
  });

  it('leaves out places that a scale does not reach', () => {
    const solved = scale([29, 29.5], [0.01, 0.02]);
    const [, line] = scalePanel('Logger − solved', scale([28.9, null], null), solved, []).curves;
    expect(line!.points.map(({ depth }) => depth)).toEqual([29]);
  });
});

describe('densityPanel', () => {
  it('draws weighed pieces at their depths with both parts of their error, flagged ones marked', () => {
    const result = { density: { value: 640, randomSd: 3, sharedSd: 4 } };
    const piece = (id: string, top: number | null, more: object) => ({
      id,
      cutterSet: 's',
      top,
      bottom: top === null ? null : top + 0.5,
      result,
      flag: null,
      ...more,
    });
    const view = {
      pieces: {
        deep: piece('deep', 30, { flag: { what: 'more than ice', by: 5, slips: [] } }),
        high: piece('high', 29, {}),
        bare: piece('bare', 31, { result: null }),
        lost: piece('lost', null, {}),
      },
      profile: [{ depth: 29, value: 630, randomSd: 3, sharedSd: 4 }],
      model: [],
      fit: null,
    } as unknown as DensityView;
    const { samples, curves } = densityPanel(view, []);
    expect(samples).toEqual([
      { thing: 'high', top: 29, bottom: 29.5, value: 640, sd: 5, flagged: false },
      { thing: 'deep', top: 30, bottom: 30.5, value: 640, sd: 5, flagged: true },
    ]);
    expect(curves[0]!.points).toEqual([{ depth: 29, value: 630, low: 625, high: 635 }]);
  });
});
