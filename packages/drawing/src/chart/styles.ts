import type { Fill, Shape, Stroke } from '../shape.ts';
import type { ChartCurve } from './input.ts';

/** Whole lines and broken ones, each told from the others without its colour. */
const whole: readonly Stroke[] = [
  { colour: 'ink', width: 0.5 },
  { colour: 'melt-ink', width: 0.5, dash: [5, 1.1] },
  { colour: 'dust', width: 0.5, dash: [5, 1, 0.5, 1] },
  { colour: 'ink-2', width: 0.9 },
  { colour: 'melt-ink', width: 0.9, dash: [2.4, 1] },
  { colour: 'ink', width: 0.25 },
];
const broken: readonly Stroke[] = [
  { colour: 'ink', width: 0.45, dash: [1.6, 1.2] },
  { colour: 'melt-ink', width: 0.55, dash: [0.5, 1] },
  { colour: 'dust', width: 0.45, dash: [2.6, 0.9, 0.5, 0.9, 0.5, 0.9] },
  { colour: 'ink-2', width: 0.8, dash: [0.8, 1.4] },
];

/** The stroke of each curve in its order. */
export function curveStrokes(curves: readonly ChartCurve[]): readonly Stroke[] {
  let [wholes, brokens] = [0, 0];
  return curves.map((curve) =>
    curve.dashed ? broken[brokens++ % broken.length]! : whole[wholes++ % whole.length]!,
  );
}

const bandFills: readonly Fill[] = ['ice', { hatch: 'ink-2', step: 1.4 }, { hatch: 'dust', step: 2.2 }];

export const bandFill = (at: number): Fill => bandFills[at % bandFills.length]!;

/** Half the size of a mark, millimetres. */
const r = 0.95;

/** A reading's mark: kinds differ by their shape. */
export function mark(kind: number, x: number, y: number): Shape {
  const stroke: Stroke = { colour: 'ink', width: 0.3 };
  const closed = (points: readonly (readonly [number, number])[], fill: Fill): Shape => ({
    is: 'line',
    points: points.map(([dx, dy]) => [x + dx * r, y + dy * r]),
    close: true,
    stroke,
    fill,
  });
  const corners = [
    [-0.9, -0.9],
    [0.9, -0.9],
    [0.9, 0.9],
    [-0.9, 0.9],
  ] as const;
  const diamond = [
    [0, -1.25],
    [1.25, 0],
    [0, 1.25],
    [-1.25, 0],
  ] as const;
  const triangle = [
    [0, -1.15],
    [1.1, 0.85],
    [-1.1, 0.85],
  ] as const;
  const kinds: readonly Shape[] = [
    { is: 'circle', x, y, r, stroke, fill: 'ink' },
    closed(corners, 'sheet'),
    closed(diamond, 'ink'),
    closed(triangle, 'sheet'),
    { is: 'circle', x, y, r, stroke, fill: 'sheet' },
  ];
  return kinds[kind % kinds.length]!;
}
