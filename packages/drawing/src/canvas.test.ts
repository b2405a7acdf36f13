import { describe, expect, it } from 'vitest';
import { paint } from './canvas.ts';
import { oneOfEach, pictureOf } from './kinds.suite.ts';
import { recorder } from './recorder.suite.ts';
import type { Shape } from './shape.ts';
import { themes } from './theme.ts';

function said(shapes: readonly Shape[], px = 2): readonly string[] {
  const record = recorder();
  paint(record.brush, pictureOf(shapes), themes.standard, px);
  return record.said;
}

describe('paint', () => {
  it('of an empty picture lays the sheet', () => {
    expect(said([])).toContain('fillStyle = #ffffff');
    expect(said([])).toContain('fillRect 0 0 160 180');
  });

  it('turns millimetres into device pixels', () => {
    expect(said([oneOfEach.rect])).toContain('rect 20 22 24 26');
    expect(said([oneOfEach.circle], 3)).toContain('arc 120 123 6 0 6.283');
    expect(said([oneOfEach.text])).toContain('fillText B-R034 <&> "±" 120 122');
  });

  it('leaves out what lies outside the picture', () => {
    const outside: Shape = { ...oneOfEach.rect, y: 200 };
    expect(said([outside])).toEqual(said([]));
  });

  it('moves a level line onto whole device pixels, a slanting one not', () => {
    const line = (y1: number): Shape => ({
      is: 'line',
      points: [
        [1, 5.3],
        [9, y1],
      ],
      stroke: { colour: 'ink', width: 0.1 },
    });
    // One device pixel wide, so its middle is at a half.
    expect(said([line(5.3)])).toContain('moveTo 2 10.5');
    expect(said([line(6)])).toContain('moveTo 2 10.6');
  });

  it('hatches along x + y = (n + 1/2) step √2, where the SVG pattern turned by 45° has its lines', () => {
    const step = 3;
    const hatched = said([{ is: 'rect', x: 10, y: 20, w: 15, h: 8, fill: { hatch: 'ink', step } }], 1);
    const starts = hatched
      .map((one) => /^moveTo (\S+) (\S+)/.exec(one))
      .filter((found) => found !== null)
      .map((found) => (Number(found[1]) + Number(found[2])) / (step * Math.SQRT2));
    expect(starts.length).toBeGreaterThan(4);
    for (const start of starts) expect(Math.abs((start % 1) - 0.5)).toBeLessThan(0.001);
    expect(hatched).toContain('clip');
  });
});
