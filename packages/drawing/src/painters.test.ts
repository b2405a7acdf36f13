import { describe, expect, it } from 'vitest';
import { paint } from './canvas.ts';
import { oneOfEach, oneOfEachFill, pictureOf } from './kinds.suite.ts';
import { recorder } from './recorder.suite.ts';
import type { Shape } from './shape.ts';
import { toSvg } from './svg.ts';
import { themes } from './theme.ts';

const theme = themes.standard;

/** What the two painters add for a shape over an empty picture. */
function traces(shape: Shape): { svg: number; canvas: number } {
  const drawn = (shapes: readonly Shape[]) => {
    const { brush, said } = recorder();
    paint(brush, pictureOf(shapes), theme, 4);
    return {
      svg: toSvg(pictureOf(shapes), theme).match(/<(path|rect|circle|text) /g)!.length,
      canvas: said.length,
    };
  };
  const [empty, full] = [drawn([]), drawn([shape])];
  return { svg: full.svg - empty.svg, canvas: full.canvas - empty.canvas };
}

describe('both painters', () => {
  it.each(Object.values(oneOfEach))('paint a shape of kind $is', (shape) => {
    const { svg, canvas } = traces(shape);
    expect(svg).toBe(1);
    expect(canvas).toBeGreaterThan(1);
  });

  it.each(oneOfEachFill)('paint the fill %j', (fill) => {
    const { svg, canvas } = traces({ is: 'rect', x: 1, y: 2, w: 10, h: 20, fill });
    expect(svg).toBeGreaterThanOrEqual(1);
    expect(canvas).toBeGreaterThan(2);
  });

  it('make strokes heavier in the sun by the same factor', () => {
    const line: Shape = {
      is: 'line',
      points: [
        [1, 1],
        [9, 4],
      ],
      stroke: { colour: 'ink', width: 1 },
    };
    const { brush, said } = recorder();
    paint(brush, pictureOf([line]), themes.sun, 10);
    expect(said).toContain('lineWidth = 17');
    expect(toSvg(pictureOf([line]), themes.sun)).toContain('stroke-width="1.7"');
  });
});
