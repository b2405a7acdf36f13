import type { Picture, Shape } from './shape.ts';

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** A glyph of the two faces is about this wide, as a share of the type's height (hyperlegible mono: 0.6). */
const glyphShare = 0.6;

/** Box around a shape in millimetres, strokes included. Text is measured by its number of glyphs, not exactly. */
export function boundsOf(shape: Shape): Box {
  switch (shape.is) {
    case 'line':
      return around(shape.points, shape.stroke.width / 2);
    case 'rect': {
      const more = (shape.stroke?.width ?? 0) / 2;
      return {
        x0: shape.x - more,
        y0: shape.y - more,
        x1: shape.x + shape.w + more,
        y1: shape.y + shape.h + more,
      };
    }
    case 'circle': {
      const reach = shape.r + (shape.stroke?.width ?? 0) / 2;
      return { x0: shape.x - reach, y0: shape.y - reach, x1: shape.x + reach, y1: shape.y + reach };
    }
    case 'dots':
      return around(
        shape.dots,
        shape.dots.reduce((most, dot) => Math.max(most, dot[2]), 0),
      );
    case 'text': {
      const wide = shape.text.length * shape.size * glyphShare;
      const x0 = shape.x - (shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? wide / 2 : wide);
      return { x0, y0: shape.y - shape.size, x1: x0 + wide, y1: shape.y + shape.size * 0.3 };
    }
  }
}

/** The shapes of a picture that touch a box; what is far outside need not be painted. */
export function shapesWithin(picture: Picture, box: Box): readonly Shape[] {
  return picture.shapes.filter((shape) => {
    const own = boundsOf(shape);
    return own.x1 >= box.x0 && own.x0 <= box.x1 && own.y1 >= box.y0 && own.y0 <= box.y1;
  });
}

function around(points: readonly (readonly [number, number, number?])[], more: number): Box {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return { x0: x0 - more, y0: y0 - more, x1: x1 + more, y1: y1 + more };
}
