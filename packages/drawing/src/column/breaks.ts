import type { Shape } from '../shape.ts';
import type { Edges, Point } from './edges.ts';
import type { Frame } from './frame.ts';
import type { ColumnPiece } from './input.ts';
import { benchLength } from './options.ts';

/** A gap of this height, in millimetres, can be seen. */
export const seenGap = 0.12;
/** Below this, the two edges of a gap are one line. */
const twoLines = 0.5;

/** Where the core begins or ends. */
export function edgeLine(points: readonly Point[]): Shape {
  return { is: 'line', points, stroke: { colour: 'ink', width: 0.28 } };
}

/** The break at a piece's top, drawn by its kind: fits thin, loss firm, unsure dashed, broken on the bench dotted. */
export function breakLines(
  edges: Edges,
  piece: ColumnPiece,
  above: ColumnPiece | undefined,
  gap: number,
): readonly Shape[] {
  if (above === undefined) return [edgeLine(edges.top)];
  const upper = gap >= twoLines ? [edges.above] : [];
  switch (piece.topBreak) {
    case 'fits':
      return [...upper, edges.top].map((points) => ({
        is: 'line',
        points,
        stroke: { colour: 'ink', width: 0.2 },
      }));
    case 'handling':
      return [...upper, edges.top].map((points) => ({
        is: 'line',
        points,
        stroke: { colour: 'ink-2', width: 0.2, dash: [0.25, 0.6] },
      }));
    case 'sawn':
    case 'ground':
    case 'loss':
      return [...upper, edges.top].map(edgeLine);
    case 'unsure':
      return [...upper, edges.top].map((points) => ({
        is: 'line',
        points,
        stroke: { colour: 'ink', width: 0.3, dash: [1.3, 0.9] },
      }));
  }
}

/** A sign beside the core, so that the kind of break is readable where the gap itself is too small to see. */
export function breakSymbol(frame: Frame, piece: ColumnPiece, y: number): readonly Shape[] {
  if (!frame.show.axis) return [];
  const x = frame.breaks;
  if (piece.topBreak === 'unsure')
    return [
      {
        is: 'text',
        x,
        y: y + frame.type * 0.36,
        text: '?',
        size: frame.type,
        anchor: 'middle',
        colour: 'ink',
        face: 'numbers',
        weight: 700,
      },
    ];
  // Ends that spun against each other: a ring. A saw: two level strokes.
  if (piece.topBreak === 'ground')
    return [{ is: 'circle', x, y, r: 0.95, stroke: { colour: 'ink', width: 0.28 } }];
  if (piece.topBreak === 'sawn')
    return [-0.45, 0.45].map((dy) => ({
      is: 'line',
      points: [
        [x - 1.1, y + dy],
        [x + 1.1, y + dy],
      ],
      stroke: { colour: 'ink', width: 0.28 },
    }));
  if (piece.topBreak === 'loss')
    return [-0.8, 0, 0.8].map((dx) => ({
      is: 'line',
      points: [
        [x + dx - 0.5, y + 0.9],
        [x + dx + 0.5, y - 0.9],
      ],
      stroke: { colour: 'ink', width: 0.28 },
    }));
  return [];
}

/** Ice that is not there, between the two edges that the breaks have, hatched and to scale. */
export function missing(frame: Frame, edges: Edges, piece: ColumnPiece): readonly Shape[] {
  const marked = frame.input.marks.some((mark) => mark.thing === piece.id && mark.depth === piece.top.value);
  const points = [...edges.above, ...[...edges.top].reverse()];
  const bare = {
    is: 'line',
    points,
    close: true,
    stroke: { colour: 'ink-2', width: 0.12 },
    thing: piece.id,
  } as const;
  const upper = frame.y(piece.top.value);
  const [first] = edges.above;
  const high = first === undefined ? 0 : upper - meanY(edges.above);
  const shapes: Shape[] = [
    { ...bare, fill: marked ? 'call-bg' : 'sheet' },
    { ...bare, fill: { hatch: marked ? 'call' : 'ink-2', step: 1.1 } },
  ];
  if (high < frame.type * 2) return shapes;
  const text = benchLength(high / frame.options.mmPerMetre, frame.number);
  const wide = text.length * frame.type * 0.62 + 1.6;
  const [x, y] = [(frame.core[0] + frame.core[1]) / 2, upper - high / 2];
  return [
    ...shapes,
    { is: 'rect', x: x - wide / 2, y: y - frame.type * 0.65, w: wide, h: frame.type * 1.3, fill: 'sheet' },
    {
      is: 'text',
      x,
      y: y + frame.type * 0.34,
      text,
      size: frame.type,
      anchor: 'middle',
      colour: 'ink',
      face: 'numbers',
    },
  ];
}

function meanY(points: readonly Point[]): number {
  return points.reduce((sum, [, y]) => sum + y, 0) / points.length;
}
