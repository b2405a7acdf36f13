import type { Shape } from '../shape.ts';
import type { Window } from './clip.ts';
import type { Chart, ChartAxis } from './input.ts';
import { type ChartTicks, chartTicks, type TickLabel } from './ticks.ts';
import { unitWords } from './unit-words.ts';

/** Millimetres of a named tick, and of one between. */
const [long, short] = [1.6, 0.9];
/** A face in which every digit has this share of its height as width. */
const digitWidth = 0.6;

export interface Axes {
  readonly x: ChartTicks;
  readonly y: ChartTicks;
}

/** Ticks for the room that there is. */
export const axesOf = (chart: Chart, width: number, height: number): Axes => ({
  x: chartTicks(chart.x, Math.floor(width / 16)),
  y: chartTicks(chart.y, Math.floor(height / 11)),
});

/** Room that the numbers of an axis take beside it, millimetres. */
export const labelWidth = ({ ticks }: ChartTicks, type: number): number =>
  Math.max(...ticks.map(({ label }) => widthOf(label, type)));

/** "depth / m"; a compound unit stands in brackets, as ISO 80000-1 writes it. */
export function axisWords(axis: ChartAxis, power: number): string {
  const unit = unitWords(axis.unit);
  const factor = power === 0 ? '' : `10${raisedPower(power)}`;
  const both = [factor, unit].filter((part) => part !== '').join('\u00a0');
  if (both === '') return axis.label;
  return `${axis.label} / ${/[\s/·]/.test(both) ? `(${both})` : both}`;
}

/** Frame lines, grid, ticks with their numbers; y's words above its axis, x's under the right end of its own. */
export function axisShapes(
  chart: Chart,
  axes: Axes,
  window: Window,
  x: (value: number) => number,
  y: (value: number) => number,
  type: number,
): readonly Shape[] {
  const { left, right, top, bottom } = window;
  const line = (points: readonly (readonly [number, number])[], grid = false): Shape => ({
    is: 'line',
    points,
    stroke: grid ? { colour: 'line', width: 0.12, dash: [0.4, 0.8] } : { colour: 'ink-2', width: 0.2 },
  });
  const words = { is: 'text', size: type, face: 'words', colour: 'ink' } as const;
  const shapes: Shape[] = [];
  for (const { value, label } of axes.x.ticks) {
    const at = x(value);
    if (label !== null && inner(at, left, right))
      shapes.push(
        line(
          [
            [at, top],
            [at, bottom],
          ],
          true,
        ),
      );
    shapes.push(
      line([
        [at, bottom],
        [at, bottom + (label === null ? short : long)],
      ]),
    );
    if (label !== null)
      shapes.push(...written(label, at - widthOf(label, type) / 2, bottom + long + type * 1.05, type));
  }
  for (const { value, label } of axes.y.ticks) {
    const at = y(value);
    if (label !== null && inner(at, top, bottom))
      shapes.push(
        line(
          [
            [left, at],
            [right, at],
          ],
          true,
        ),
      );
    shapes.push(
      line([
        [left - (label === null ? short : long), at],
        [left, at],
      ]),
    );
    if (label !== null)
      shapes.push(...written(label, left - long - 0.8 - widthOf(label, type), at + type * 0.33, type));
  }
  return [
    ...shapes,
    line([
      [left, top],
      [left, bottom],
      [right, bottom],
    ]),
    { ...words, x: 1, y: top - type * 0.75, text: axisWords(chart.y, axes.y.power), anchor: 'start' },
    {
      ...words,
      x: right,
      y: bottom + long + type * 2.45,
      text: axisWords(chart.x, axes.x.power),
      anchor: 'end',
    },
  ];
}

const inner = (at: number, from: number, to: number): boolean => at > from + 0.05 && at < to - 0.05;

function widthOf(label: TickLabel | null, type: number): number {
  if (label === null) return 0;
  const small = type * 0.92;
  return 'digits' in label
    ? label.digits.length * digitWidth * small
    : (2 + String(label.power).length * 0.72) * digitWidth * small;
}

/** The number from its left end; a power of ten with its exponent raised, since not every font has such digits. */
function written(label: TickLabel, x: number, y: number, type: number): readonly Shape[] {
  const size = type * 0.92;
  const figure = { is: 'text', anchor: 'start', colour: 'ink-2', face: 'numbers' } as const;
  if ('digits' in label) return [{ ...figure, x, y, size, text: label.digits }];
  return [
    { ...figure, x, y, size, text: '10' },
    {
      ...figure,
      x: x + 2 * digitWidth * size,
      y: y - size * 0.38,
      size: size * 0.72,
      text: String(label.power).replace('-', '\u2212'),
    },
  ];
}

const raisedPower = (power: number): string =>
  [...String(power)].map((letter) => '⁻⁰¹²³⁴⁵⁶⁷⁸⁹'['-0123456789'.indexOf(letter)] ?? letter).join('');
