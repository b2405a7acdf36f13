import type { Shape } from '../shape.ts';
import type { Curve, PanelFrame } from './input.ts';

/** The part of the curve in the window, one point beyond either end. */
export function curveShapes({ x, y, head, height }: PanelFrame, curve: Curve): readonly Shape[] {
  const { points } = curve;
  const from = Math.max(0, points.findIndex(({ depth }) => y(depth) >= head) - 1);
  const after = points.findIndex(({ depth }) => y(depth) > height);
  const seen = points.slice(from, after < 0 ? undefined : after + 1);
  if (seen.length < 2) return [];
  const edge = (side: 'low' | 'high'): [number, number][] =>
    seen.map((point) => [x(point[side] ?? point.value), y(point.depth)]);
  const hasBand = seen.some(({ low, high }) => low !== undefined && high !== undefined);
  const limits = hasBand
    ? [edge('low'), edge('high')].map(
        (line): Shape => ({
          is: 'line',
          points: line,
          stroke: { colour: curve.colour, width: 0.14, dash: [0.4, 0.7] },
        }),
      )
    : [];
  return [
    ...limits,
    {
      is: 'line',
      points: seen.map((point) => [x(point.value), y(point.depth)]),
      stroke: {
        colour: curve.colour,
        width: 0.34,
        ...(curve.dash === undefined ? {} : { dash: curve.dash }),
      },
    },
  ];
}
