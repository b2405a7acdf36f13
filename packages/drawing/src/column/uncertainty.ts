import type { Shape } from '../shape.ts';
import { type Frame, inSight } from './frame.ts';
import type { ColumnDepth } from './input.ts';

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
    if (below === undefined || below.topBreak !== 'fits')
      shapes.push(...bar(frame, piece.bottom, frame.bars[1], piece.id, ranged(piece.bottom)));
  });
  return shapes;
}

function bar(frame: Frame, depth: ColumnDepth, x: number, thing: string, ranged: boolean): readonly Shape[] {
  const y = frame.y(depth.value);
  const [low, high] = [frame.y(depth.min), frame.y(depth.max)];
  const sd = depth.sd * frame.options.mmPerMetre;
  return [
    ...(ranged && high - low > 1.2
      ? [
          {
            is: 'line',
            points: [
              [x, low],
              [x, high],
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
              [x, y + sd],
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
