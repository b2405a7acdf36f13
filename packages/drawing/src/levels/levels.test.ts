import { describe, expect, it } from 'vitest';
import { hit } from '../hit.ts';
import { type Level, zeroLevels } from './levels.ts';
import { levelTicks } from './ticks.ts';

const day = 86_400_000;
const start = Date.UTC(2026, 5, 11);

/** Invented: a board over the hole, set anew 31 cm higher after a storm, measured once again. */
const levels: readonly Level[] = [
  {
    id: 'z1',
    name: 'Zero 1',
    surface: 'snow surface',
    set: { id: 'z1', at: start, height: 0, sd: null },
    again: [],
    height: 0,
    sd: 0.0005,
  },
  {
    id: 'z2',
    name: 'Zero 2',
    surface: 'board set anew',
    set: { id: 'z2', at: start + 4 * day, height: 0.31, sd: 0.01 },
    again: [{ id: 'c1', at: start + 5 * day, height: 0.314, sd: 0.01 }],
    height: 0.312,
    sd: 0.007,
  },
];
const options = {
  width: 160,
  height: 90,
  day: (at: number) => String(Math.round((at - start) / day)),
  words: { title: 'Zeros of hole B', axis: 'cm above the first zero' },
};
const drawn = zeroLevels(levels, start + 10 * day, options);

describe('zeroLevels', () => {
  it('draws heights and days to scale: upwards is up, later is to the right', () => {
    const circles = drawn.shapes.flatMap((shape) => (shape.is === 'circle' ? [shape] : []));
    const [first, second, again] = circles;
    expect([first!.thing, second!.thing, again!.thing]).toEqual(['z1', 'z2', 'z2']);
    const perDay = (second!.x - first!.x) / 4;
    expect(again!.x - second!.x).toBeCloseTo(perDay, 6);
    const perMetre = (first!.y - second!.y) / 0.31;
    expect(perMetre).toBeGreaterThan(0);
    expect(second!.y - again!.y).toBeCloseTo(perMetre * 0.004, 6);
  });

  it('shows each zero from its day to the next one, and the last to the end', () => {
    const bands = drawn.shapes.flatMap((shape) => (shape.is === 'rect' && shape.thing ? [shape] : []));
    expect(bands[0]!.x + bands[0]!.w).toBeCloseTo(bands[1]!.x, 6);
    expect(bands[1]!.x + bands[1]!.w).toBeCloseTo(158.5, 6);
  });

  it('can be touched', () => {
    const line = drawn.shapes.find((shape) => shape.is === 'line' && shape.thing === 'z2');
    const [x, y] = line?.is === 'line' ? line.points[0]! : [0, 0];
    expect(hit(drawn, x + 10, y)).toBe('z2');
  });

  it('gives a single zero a scale too', () => {
    const one = zeroLevels(levels.slice(0, 1), start, options);
    const figures = one.shapes.flatMap((shape) =>
      shape.is === 'text' && shape.face === 'numbers' ? [shape.text] : [],
    );
    expect(figures).toContain('0');
    expect(figures.length).toBeGreaterThan(2);
  });
});

describe('levelTicks', () => {
  it('are round and hold zero where it is in reach', () => {
    expect(levelTicks(-0.04, 0.36).map((one) => Math.round(one * 100))).toEqual([0, 10, 20, 30]);
    expect(levelTicks(-0.1, 0.1).map((one) => Math.round(one * 100))).toEqual([-10, -5, 0, 5, 10]);
  });
});
