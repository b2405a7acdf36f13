import type { Fill, Picture, Shape } from './shape.ts';

/** One shape of each kind; the type makes a new kind fail to compile until it stands here. */
export const oneOfEach: { readonly [Kind in Shape['is']]: Extract<Shape, { readonly is: Kind }> } = {
  line: {
    is: 'line',
    points: [
      [1, 2],
      [3, 5],
      [4, 2],
    ],
    close: true,
    fill: 'ice',
    stroke: { colour: 'ink', width: 0.3, dash: [1, 0.5] },
    thing: 'a line',
  },
  rect: { is: 'rect', x: 10, y: 11, w: 12, h: 13, fill: 'call-bg', thing: 'a rect' },
  circle: { is: 'circle', x: 40, y: 41, r: 2, stroke: { colour: 'act', width: 0.5 }, thing: 'a circle' },
  dots: {
    is: 'dots',
    dots: [
      [50, 51, 0.5],
      [52, 53, 0.25],
    ],
    fill: 'bubble',
  },
  text: {
    is: 'text',
    x: 60,
    y: 61,
    text: 'B-R034 <&> "±"',
    size: 3,
    anchor: 'end',
    colour: 'ink-2',
    face: 'numbers',
    weight: 700,
  },
};

export const oneOfEachFill: readonly Fill[] = [
  'melt',
  { cylinder: { x0: 2, x1: 9 } },
  { hatch: 'ink-2', step: 1.2 },
];

export function pictureOf(shapes: readonly Shape[]): Picture {
  return { width: 80, height: 90, title: 'Every kind & fill', shapes };
}
