import type { Shape } from '../shape.ts';
import { type Frame, inSight } from './frame.ts';
import type { ColumnMark } from './input.ts';

const radius = 2.1;

/** Where a person is needed: a sign in the warm colour, and a dotted line to the depth. Close ones share a sign and a count. */
export function marks(frame: Frame): readonly Shape[] {
  const shapes: Shape[] = [];
  let group: ColumnMark[] = [];
  const endGroup = (): void => {
    if (group.length > 0) shapes.push(...sign(frame, group));
    group = [];
  };
  for (const mark of [...frame.input.marks].sort((a, b) => a.depth - b.depth)) {
    if (!inSight(frame, mark.depth, mark.depth, 1)) continue;
    const [first] = group;
    if (first !== undefined && frame.y(mark.depth) - frame.y(first.depth) > 2 * radius + 0.4) endGroup();
    group.push(mark);
  }
  endGroup();
  return shapes;
}

function sign(frame: Frame, group: readonly ColumnMark[]): readonly Shape[] {
  const [mark] = group;
  if (mark === undefined) return [];
  const [x, y] = [frame.marks, frame.y(mark.depth)];
  const { thing } = mark;
  const dotted = { colour: 'call', width: 0.3, dash: [0.3, 0.9] } as const;
  const leads: Shape[] = frame.show.axis
    ? [
        {
          is: 'line',
          points: [
            [frame.ticks[1], y],
            [x - radius, y],
          ],
          stroke: dotted,
        },
      ]
    : [
        {
          is: 'line',
          points: [
            [frame.core[0], y],
            [x - radius, y],
          ],
          stroke: dotted,
        },
      ];
  const glyph = mark.kind === 'finding' ? lookAgain(x, y, thing) : doesNotAgree(x, y, thing);
  const count: Shape[] =
    frame.show.axis && new Set(group.map((one) => one.thing)).size > 1
      ? [
          {
            is: 'text',
            x: x + radius + 0.3,
            y: y + frame.type * 0.35,
            text: String(group.length),
            size: frame.type,
            anchor: 'start',
            colour: 'call',
            face: 'numbers',
            weight: 700,
            thing,
          },
        ]
      : [];
  return [...leads, ...glyph, ...count];
}

/** A reading that doesn't fit the others: a diamond with a stroke and a dot. */
function lookAgain(x: number, y: number, thing: string): readonly Shape[] {
  return [
    {
      is: 'line',
      points: [
        [x, y - radius],
        [x + radius, y],
        [x, y + radius],
        [x - radius, y],
      ],
      close: true,
      fill: 'call',
      stroke: { colour: 'call', width: 0.3 },
      thing,
    },
    {
      is: 'line',
      points: [
        [x, y - 1.1],
        [x, y + 0.25],
      ],
      stroke: { colour: 'sheet', width: 0.42 },
    },
    { is: 'circle', x, y: y + 0.95, r: 0.27, fill: 'sheet' },
  ];
}

/** Two claims that can't both be true: a square with an unequal sign. */
function doesNotAgree(x: number, y: number, thing: string): readonly Shape[] {
  const half = radius * 0.86;
  const stroke = { colour: 'call', width: 0.34 } as const;
  const across = (dy: number): Shape => ({
    is: 'line',
    points: [
      [x - half * 0.55, y + dy],
      [x + half * 0.55, y + dy],
    ],
    stroke,
  });
  return [
    { is: 'rect', x: x - half, y: y - half, w: 2 * half, h: 2 * half, fill: 'call-bg', stroke, thing },
    across(-0.5),
    across(0.5),
    {
      is: 'line',
      points: [
        [x - half * 0.4, y + half * 0.62],
        [x + half * 0.4, y - half * 0.62],
      ],
      stroke,
    },
  ];
}
