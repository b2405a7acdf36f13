import { boundsOf, shapesWithin } from './bounds.ts';
import { litStops } from './lit.ts';
import type { Fill, Picture, Shape, Stroke } from './shape.ts';
import { type Fonts, hatchWidth, plainFonts } from './svg.ts';
import type { Theme } from './theme.ts';

/** What the painter needs of a canvas context; on screen, off screen or a recorder. */
export type Brush = Pick<
  CanvasRenderingContext2D,
  | 'fillStyle'
  | 'strokeStyle'
  | 'lineWidth'
  | 'lineJoin'
  | 'font'
  | 'textAlign'
  | 'textBaseline'
  | 'save'
  | 'restore'
  | 'beginPath'
  | 'moveTo'
  | 'lineTo'
  | 'closePath'
  | 'arc'
  | 'rect'
  | 'clip'
  | 'fill'
  | 'stroke'
  | 'fillRect'
  | 'fillText'
  | 'setLineDash'
  | 'createLinearGradient'
>;

/**
 * Paint a picture on a canvas; its upper left corner is the canvas's. Shapes outside the picture are left out.
 *
 * @param pxPerMm device pixels per millimetre (96 / 25.4 times the device pixel ratio on a screen)
 */
export function paint(
  brush: Brush,
  picture: Picture,
  theme: Theme,
  pxPerMm: number,
  fonts: Fonts = plainFonts,
): void {
  brush.save();
  brush.fillStyle = theme.colours.sheet;
  brush.fillRect(0, 0, picture.width * pxPerMm, picture.height * pxPerMm);
  brush.lineJoin = 'round';
  brush.textBaseline = 'alphabetic';
  const frame = { x0: 0, y0: 0, x1: picture.width, y1: picture.height };
  for (const shape of shapesWithin(picture, frame)) paintShape(brush, shape, theme, pxPerMm, fonts);
  brush.restore();
}

function paintShape(brush: Brush, shape: Shape, theme: Theme, px: number, fonts: Fonts): void {
  if (shape.is === 'text') {
    brush.font = `${shape.weight ?? 400} ${shape.size * px}px ${fonts[shape.face]}`;
    brush.textAlign = shape.anchor === 'middle' ? 'center' : shape.anchor;
    brush.fillStyle = theme.colours[shape.colour];
    brush.fillText(shape.text, shape.x * px, shape.y * px);
    return;
  }
  trace(brush, shape, theme, px);
  if (shape.fill !== undefined) {
    fillPath(brush, shape, shape.fill, theme, px);
    // Hatching leaves its own lines as the current path.
    if (typeof shape.fill === 'object' && 'hatch' in shape.fill) trace(brush, shape, theme, px);
  }
  if (shape.is !== 'dots' && shape.stroke !== undefined) strokePath(brush, shape.stroke, theme, px);
}

type Outlined = Exclude<Shape, { readonly is: 'text' }>;

function trace(brush: Brush, shape: Outlined, theme: Theme, px: number): void {
  brush.beginPath();
  switch (shape.is) {
    case 'line':
      for (const [at, [x, y]] of crisp(shape.points, shape.stroke.width * theme.stroke, px).entries()) {
        if (at === 0) brush.moveTo(x, y);
        else brush.lineTo(x, y);
      }
      if (shape.close) brush.closePath();
      break;
    case 'rect':
      brush.rect(shape.x * px, shape.y * px, shape.w * px, shape.h * px);
      break;
    case 'circle':
      brush.arc(shape.x * px, shape.y * px, shape.r * px, 0, 2 * Math.PI);
      break;
    case 'dots':
      for (const [x, y, r] of shape.dots) {
        brush.moveTo((x + r) * px, y * px);
        brush.arc(x * px, y * px, r * px, 0, 2 * Math.PI);
      }
  }
}

/** Device pixels of a line's points. A single level or upright line is moved onto whole pixels, so that it isn't blurred. */
function crisp(
  points: readonly (readonly [number, number])[],
  width: number,
  px: number,
): readonly (readonly [number, number])[] {
  const [a, b] = points;
  const half = (Math.max(1, Math.round(width * px)) % 2) / 2;
  const onto = (at: number): number => Math.round(at * px - half) + half;
  if (points.length === 2 && a !== undefined && b !== undefined) {
    if (a[0] === b[0]) return points.map(([x, y]) => [onto(x), y * px]);
    if (a[1] === b[1]) return points.map(([x, y]) => [x * px, onto(y)]);
  }
  return points.map(([x, y]) => [x * px, y * px]);
}

function fillPath(brush: Brush, shape: Outlined, fill: Fill, theme: Theme, px: number): void {
  if (typeof fill === 'string') {
    brush.fillStyle = theme.colours[fill];
    brush.fill();
  } else if ('cylinder' in fill) {
    const light = brush.createLinearGradient(fill.cylinder.x0 * px, 0, fill.cylinder.x1 * px, 0);
    for (const [share, colour] of litStops) light.addColorStop(share, theme.colours[colour]);
    brush.fillStyle = light;
    brush.fill();
  } else {
    // Lines x + y = const, where SVG's turned pattern has them, so that screen and print agree.
    const box = boundsOf(shape);
    const apart = fill.step * Math.SQRT2;
    brush.save();
    brush.clip();
    brush.beginPath();
    for (let at = Math.floor((box.x0 + box.y0) / apart) - 0.5; at * apart <= box.x1 + box.y1; at += 1) {
      brush.moveTo((at * apart - box.y0) * px, box.y0 * px);
      brush.lineTo((at * apart - box.y1) * px, box.y1 * px);
    }
    strokePath(brush, { colour: fill.hatch, width: hatchWidth }, theme, px);
    brush.restore();
  }
}

function strokePath(brush: Brush, stroke: Stroke, theme: Theme, px: number): void {
  brush.strokeStyle = theme.colours[stroke.colour];
  brush.lineWidth = Math.max(1, stroke.width * theme.stroke * px);
  brush.setLineDash((stroke.dash ?? []).map((part) => part * px));
  brush.stroke();
}
