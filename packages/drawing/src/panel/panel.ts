import { headingHeight } from '../column/frame.ts';
import type { Picture, Shape } from '../shape.ts';
import { curveShapes } from './curve.ts';
import type { PanelFrame, PanelInput, PanelOptions } from './input.ts';
import { rangeOf } from './range.ts';
import { stepShapes } from './steps.ts';

/**
 * A panel beside a core: values as steps with their standard deviations, over the same depths at the same scale. Its
 * range is that of the ice around the window: small changes show, and it stands still while the window moves a little.
 *
 * @throws Error where width, scale or window can't be drawn
 */
export function panel(input: PanelInput, options: PanelOptions): Picture {
  const { width, mmPerMetre, window } = options;
  if (!(mmPerMetre > 0) || !(window.to > window.from) || !(width > 0))
    throw new Error(
      `A panel of ${width} mm at ${mmPerMetre} mm per metre from ${window.from} to ${window.to} m can't be drawn; width and scale must be above 0 and the window must run downwards.`,
    );
  const type = options.type ?? 3.3;
  const head = headingHeight(type);
  const [left, right] = [1.5, width - 1.5];
  const [least, most] = rangeOf(around(input, window));
  const frame: PanelFrame = {
    input,
    options,
    head,
    height: head + (window.to - window.from) * mmPerMetre,
    x: (value) => Math.min(right, Math.max(left, left + ((value - least) / (most - least)) * (right - left))),
    y: (depth) => head + (depth - window.from) * mmPerMetre,
    left,
    right,
  };
  return {
    width,
    height: frame.height,
    title: `${input.name}, ${input.unit}`,
    shapes: [
      ...gapShapes(frame),
      ...stepShapes(frame),
      ...input.curves.flatMap((curve) => curveShapes(frame, curve)),
      ...lineShapes(frame),
      ...headShapes(frame, least, most),
    ],
  };
}

/** How far above and below the window, in windows, values still count for the range. */
const AROUND = 2;

/** What lies around the window; everything where nothing does. */
function around(
  { samples, curves }: PanelInput,
  { from, to }: PanelOptions['window'],
): Pick<PanelInput, 'samples' | 'curves'> {
  const [least, most] = [from - AROUND * (to - from), to + AROUND * (to - from)];
  const near = samples.filter((one) => one.bottom >= least && one.top <= most);
  const lines = curves.map((curve) => ({
    ...curve,
    points: curve.points.filter(({ depth }) => depth >= least && depth <= most),
  }));
  return near.length === 0 && lines.every(({ points }) => points.length === 0)
    ? { samples, curves }
    : { samples: near, curves: lines };
}

/** Hatched from side to side: there is nothing to measure. */
function gapShapes({ input, y, left, right, head, height }: PanelFrame): readonly Shape[] {
  return input.gaps
    .filter((gap) => y(gap.bottom) >= head && y(gap.top) <= height)
    .map((gap) => ({
      is: 'rect',
      x: left,
      y: y(gap.top),
      w: right - left,
      h: Math.max(0.3, y(gap.bottom) - y(gap.top)),
      fill: { hatch: 'line', step: 1.4 },
    }));
}

function lineShapes({ options, y, head, height, left, right }: PanelFrame): readonly Shape[] {
  if (options.line == null) return [];
  const at = y(options.line);
  if (at < head || at > height) return [];
  return [
    {
      is: 'line',
      points: [
        [left - 1.5, at],
        [right + 1.5, at],
      ],
      stroke: { colour: 'act', width: 0.3, dash: [0.3, 0.9] },
    },
  ];
}

/** Name, unit and ends of the range over a strip that hides what is scrolled away. */
function headShapes(frame: PanelFrame, least: number, most: number): readonly Shape[] {
  const { input, options, left, right, head } = frame;
  const type = options.type ?? 3.3;
  const write = options.number ?? ((value, decimals) => value.toFixed(decimals));
  const word = { is: 'text', size: type * 0.9, face: 'words' } as const;
  const figure = { is: 'text', size: type * 0.82, face: 'numbers', colour: 'ink-2' } as const;
  return [
    { is: 'rect', x: 0, y: 0, w: options.width, h: head, fill: 'sheet' },
    { ...word, x: left, y: type * 0.85, text: input.name, anchor: 'start', colour: 'ink' },
    { ...word, x: right, y: type * 0.85, text: input.unit, anchor: 'end', colour: 'ink-2' },
    {
      is: 'line',
      points: [
        [left, type * 1.15],
        [right, type * 1.15],
      ],
      stroke: { colour: 'ink-2', width: 0.2 },
    },
    { ...figure, x: left, y: type * 2, text: write(least, input.decimals), anchor: 'start' },
    { ...figure, x: right, y: type * 2, text: write(most, input.decimals), anchor: 'end' },
  ];
}
