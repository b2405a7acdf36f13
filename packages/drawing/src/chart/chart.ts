import type { Picture, Shape } from '../shape.ts';
import { axesOf, axisShapes, labelWidth } from './axes.ts';
import { clipped, type Window } from './clip.ts';
import type { Chart } from './input.ts';
import { legend } from './legend.ts';
import { chartScale } from './scale.ts';
import { bandFill, curveStrokes, mark } from './styles.ts';
import { wrapped } from './text-width.ts';

/** Millimetres: as wide as a phone's page can show in a type that is still read. */
const width = 120;
const plotHeight = 66;
const type = 3.3;
const titleType = 3.7;

/**
 * A figure of a method page: title, legend, axes, and on them bands, lines and marks. What lies beyond the axes is cut
 * off.
 *
 * @throws Error where an axis can't be drawn, a chart shows nothing, or nothing of a line or mark lies in it
 */
export function chart(input: Chart): Picture {
  const { curves, points = [], bands = [] } = input;
  const placeX = chartScale(input.x);
  const placeY = chartScale(input.y);
  // Bold letters are a tenth wider.
  const title = wrapped(input.title, 1.12 * titleType, width - 2);
  const titled = titleType * (0.4 + 1.3 * title.length);
  const keys = legend(input, 1, titled + 0.6, width - 2, type);
  const top = titled + keys.height + type * 2.2;
  const axes = axesOf(input, width, plotHeight);
  const window: Window = {
    left: labelWidth(axes.y, type) + 3.6,
    right: width - 4,
    top,
    bottom: top + plotHeight,
  };
  const x = (value: number): number => window.left + placeX(value) * (window.right - window.left);
  const y = (value: number): number => window.bottom - placeY(value) * (window.bottom - window.top);
  const strokes = curveStrokes(curves);
  const lines = curves.flatMap(({ label, at }, index): readonly Shape[] => {
    const stretches = clipped(
      at.map(([across, up]) => [x(across), y(up)]),
      window,
    );
    return seen(label, stretches).map((line) => ({ is: 'line', points: line, stroke: strokes[index]! }));
  });
  const marks = points.flatMap(({ label, at }, kind) =>
    seen(
      label,
      at
        .map(([across, up]) => [x(across), y(up)] as const)
        .filter(([across, up]) => holds(window, across, up)),
    ).map(([across, up]) => mark(kind, across, up)),
  );
  if (lines.length + marks.length === 0) throw new Error(`The chart "${input.title}" shows nothing.`);
  return {
    width,
    height: window.bottom + type * 4,
    title: input.title,
    shapes: [
      ...title.map(
        (text, line): Shape => ({
          is: 'text',
          x: 1,
          y: titleType * (1.1 + 1.3 * line),
          text,
          size: titleType,
          anchor: 'start',
          colour: 'ink',
          face: 'words',
          weight: 700,
        }),
      ),
      ...keys.shapes,
      ...bands.map(({ at }, index): Shape => {
        const hold = (up: number): number => Math.min(window.bottom, Math.max(window.top, y(up)));
        const within = at.filter(([across]) => holds(window, x(across), window.top));
        return {
          is: 'line',
          points: [
            ...within.map(([across, low]) => [x(across), hold(low)] as const),
            ...within.toReversed().map(([across, , high]) => [x(across), hold(high)] as const),
          ],
          close: true,
          fill: bandFill(index),
          stroke: { colour: 'ink-2', width: 0.1, dash: [0.6, 0.6] },
        };
      }),
      ...axisShapes(input, axes, window, x, y, type),
      ...lines,
      ...marks,
    ],
  };
}

const holds = ({ left, right, top, bottom }: Window, x: number, y: number): boolean =>
  x >= left - 1e-6 && x <= right + 1e-6 && y >= top - 1e-6 && y <= bottom + 1e-6;

/** A line in the legend that is not in the picture would be looked for. */
function seen<T>(label: string, drawn: readonly T[]): readonly T[] {
  if (drawn.length === 0) throw new Error(`Nothing of "${label}" lies within the axes of its chart.`);
  return drawn;
}
