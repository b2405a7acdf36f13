import { describe, expect, it } from 'vitest';
import { hit } from '../hit.ts';
import { type SpliceRecord, spliceColumns } from './splices.ts';

/** Invented: the same dust at 23.41 m in hole A and 23.83 m in hole B, whose surface lies 42 cm higher. */
const a: SpliceRecord = {
  id: 'a',
  name: 'CER-A',
  offset: 0,
  sd: 0,
  ice: [{ top: 23, bottom: 24 }],
  features: [{ id: 'dust-a', what: 'dust', top: 23.41, bottom: 23.414 }],
};
const b: SpliceRecord = {
  id: 'b',
  name: 'CER-B',
  offset: 0.42,
  sd: 0.014,
  ice: [{ top: 23.2, bottom: 24.5 }],
  features: [{ id: 'dust-b', what: 'dust', top: 23.83, bottom: 23.834 }],
};
const ties = [{ of: { record: 'b', feature: 'dust-b' }, on: { record: 'a', feature: 'dust-a' } }];
const options = { width: 120, height: 100, window: { from: 23, to: 24 }, title: 'Holes A and B' };

const tieIn = (records: readonly SpliceRecord[]) => {
  const found = spliceColumns(records, ties, options).shapes.filter(
    (shape) => shape.is === 'line' && shape.stroke.dash !== undefined,
  );
  return found.map((shape) => (shape.is === 'line' ? shape.points.map(([, y]) => y) : []));
};

describe('spliceColumns', () => {
  it('lays the same layer level where the splice is right', () => {
    const [[left, right]] = tieIn([a, b]) as [[number, number]];
    expect(left).toBeCloseTo(right, 9);
  });

  it('shows a wrong splice as a slope, to scale', () => {
    const [[left, right]] = tieIn([a, { ...b, offset: 0.32 }]) as [[number, number]];
    const perMetre = (100 - 3.3 * 2.6 - 1) / 1;
    expect(right - left).toBeCloseTo(0.1 * perMetre, 6);
  });

  it('draws each record in a column of its own, and it can be touched', () => {
    const drawn = spliceColumns([a, b], ties, options);
    const ice = drawn.shapes.flatMap((shape) => (shape.is === 'rect' && shape.thing ? [shape] : []));
    expect(ice.map((one) => one.thing)).toEqual(['a', 'b']);
    expect(ice[0]!.x + ice[0]!.w).toBeLessThan(ice[1]!.x);
    expect(hit(drawn, ice[1]!.x + 1, ice[1]!.y + 30)).toBe('b');
  });

  it('leaves out what the window does not show', () => {
    const drawn = spliceColumns([a, b], ties, { ...options, window: { from: 60, to: 61 } });
    expect(drawn.shapes.some((shape) => shape.is === 'rect' && shape.thing !== undefined)).toBe(false);
    expect(tieIn([])).toEqual([]);
  });

  it('refuses a window that runs upwards, and says so', () => {
    expect(() => spliceColumns([a], [], { ...options, window: { from: 2, to: 1 } })).toThrow('run downwards');
  });
});
