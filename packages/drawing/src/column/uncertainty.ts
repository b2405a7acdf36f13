import type { Shape } from '../shape.ts';
import { type Frame, inSight } from './frame.ts';
import { type ColumnDepth, isWhole } from './input.ts';

/** A possible range longer than this on paper, in millimetres, would run past neighbours and captions; it is left to figures. */
const longestRange = 15;

/** Beside each top and bottom a bar of one standard deviation up and down, and a hair over the possible range. */
export function uncertainty(frame: Frame): readonly Shape[] {
  const { pieces } = frame.input;
  const shapes: Shape[] = [];
  let free = -Infinity;
  pieces.forEach((piece, at) => {
    if (!inSight(frame, piece.top.value, piece.bottom.value, 12)) return;
    // Bars closer than their own width blend into a band; fewer of them say the same.
    if (frame.y(piece.bottom.value) - free < 0.6) return;
    free = frame.y(piece.bottom.value);
    const below = pieces[at + 1];
    // Ranges that reach over the neighbours would run together; they are drawn for what is looked at.
    const chosen = piece.id === frame.options.selected;
    const clear = piece.bottom.value - piece.top.value;
    const ranged = (depth: ColumnDepth): boolean => chosen || depth.max - depth.min < clear;
    shapes.push(...bar(frame, piece.top, frame.bars[0], piece.id, ranged(piece.top)));
    if (below === undefined || !isWhole(below.topBreak))
      shapes.push(...bar(frame, piece.bottom, frame.bars[1], piece.id, ranged(piece.bottom)));
  });
  return shapes;
}

function bar(frame: Frame, depth: ColumnDepth, x: number, thing: string, ranged: boolean): readonly Shape[] {
  const y = frame.y(depth.value);
  const [low, high] = [frame.y(depth.min), frame.y(depth.max)];
  const sd = depth.sd * frame.options.mmPerMetre;
  const foot = footOf(frame);
  const end = (wanted: number): number => Math.max(y, Math.min(wanted, foot));
  const hasRange = ranged && high - low > 1.2 && high - low < longestRange;
  const isCut = Math.max(y + sd, hasRange ? high : y) > foot && foot > y;
  return [
    ...(isCut ? [openEnd(x, foot)] : []),
    ...(hasRange
      ? [
          {
            is: 'line',
            points: [
              [x, low],
              [x, end(high)],
            ],
            stroke: { colour: 'ink-2', width: 0.12 },
          } as const,
        ]
      : []),
    ...(sd > 0.15
      ? [
          {
            is: 'line',
            points: [
              [x, y - sd],
              [x, end(y + sd)],
            ],
            stroke: { colour: 'ink-2', width: 0.55 },
            thing,
          } as const,
        ]
      : []),
    {
      is: 'line',
      points: [
        [x - 0.75, y],
        [x + 0.75, y],
      ],
      stroke: { colour: 'ink', width: 0.24 },
      thing,
    },
  ];
}

/** Under the hole's bottom stands its caption: bars end above it. */
function footOf(frame: Frame): number {
  const bottom = frame.deepest?.holeBottom ?? null;
  return bottom === null || !frame.show.runs ? Infinity : frame.y(bottom.value) + frame.type * 0.4;
}

/** Says that a bar goes on beyond where it is drawn. */
function openEnd(x: number, y: number): Shape {
  return {
    is: 'line',
    points: [
      [x - 0.8, y - 0.9],
      [x, y],
      [x + 0.8, y - 0.9],
    ],
    stroke: { colour: 'ink-2', width: 0.3 },
  };
}
