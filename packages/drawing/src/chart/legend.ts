import type { Shape } from '../shape.ts';
import type { Chart } from './input.ts';
import { bandFill, curveStrokes, mark } from './styles.ts';
import { textWidth } from './text-width.ts';

/** Millimetres of a sample of a line, and from it to its words. */
const sample = 8;
const apart = 1.6;

interface Entry {
  readonly label: string;
  readonly shapes: (x: number, y: number) => readonly Shape[];
}

/** What each line, mark and band is, in rows under the title; nothing for a chart that shows one thing. */
export function legend(
  chart: Chart,
  left: number,
  top: number,
  width: number,
  type: number,
): { readonly shapes: readonly Shape[]; readonly height: number } {
  const entries = entriesOf(chart);
  if (entries.length < 2) return { shapes: [], height: 0 };
  const shapes: Shape[] = [];
  const line = type * 1.5;
  let [x, row] = [left, 0];
  for (const { label, shapes: drawn } of entries) {
    const wide = sample + apart + textWidth(label, type);
    if (x > left && x + wide > left + width) [x, row] = [left, row + 1];
    const y = top + row * line + line / 2;
    shapes.push(...drawn(x, y), {
      is: 'text',
      x: x + sample + apart,
      y: y + type * 0.34,
      text: label,
      size: type,
      anchor: 'start',
      colour: 'ink',
      face: 'words',
    });
    x += wide + 3 * apart;
  }
  return { shapes, height: (row + 1) * line + type * 0.4 };
}

function entriesOf({ curves, points = [], bands = [] }: Chart): readonly Entry[] {
  const strokes = curveStrokes(curves);
  return [
    ...curves.map(
      ({ label }, at): Entry => ({
        label,
        shapes: (x, y) => [
          {
            is: 'line',
            points: [
              [x, y],
              [x + sample, y],
            ],
            stroke: strokes[at]!,
          },
        ],
      }),
    ),
    ...points.map(({ label }, at): Entry => ({ label, shapes: (x, y) => [mark(at, x + sample / 2, y)] })),
    ...bands.map(
      ({ label }, at): Entry => ({
        label,
        shapes: (x, y) => [
          {
            is: 'rect',
            x,
            y: y - 1.3,
            w: sample,
            h: 2.6,
            fill: bandFill(at),
            stroke: { colour: 'ink-2', width: 0.14 },
          },
        ],
      }),
    ),
  ];
}
