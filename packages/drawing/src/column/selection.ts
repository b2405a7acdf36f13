import type { Shape } from '../shape.ts';
import { type Frame, inSight } from './frame.ts';
import type { ColumnDepth } from './input.ts';
import { depthDecimals, spread } from './options.ts';

interface Reading {
  readonly depth: ColumnDepth;
  readonly y: number;
  /** Where its figures stand; thin pieces make the two readings step aside so that neither hides the other. */
  readonly at: number;
}

/** Top and bottom of what is being looked at, where it is in sight. */
function readings(frame: Frame): readonly [Reading, Reading] | null {
  const { selected } = frame.options;
  if (selected === null || selected === undefined) return null;
  const own = frame.input.pieces.filter((piece) => piece.id === selected || piece.run === selected);
  const [top, bottom] = [own[0]?.top, own.at(-1)?.bottom];
  if (top === undefined || bottom === undefined || !inSight(frame, top.value, bottom.value)) return null;
  const [y0, y1] = [frame.y(top.value), frame.y(bottom.value)];
  const aside = y1 - y0 < frame.type * 2.6 ? frame.type * 1.3 : 0;
  return [
    { depth: top, y: y0, at: y0 - aside },
    { depth: bottom, y: y1, at: y1 + aside },
  ];
}

/** Says whether an axis label at a height would run into the figures of what is being looked at. */
export function coveredHeights(frame: Frame): (y: number) => boolean {
  const both = readings(frame) ?? [];
  return (y) => both.some(({ at }) => y > at - frame.type * 1.2 && y < at + frame.type * 2.2);
}

/** What is being looked at: a firm outline in the touch colour, and its depths beside the axis. */
export function selection(frame: Frame): readonly Shape[] {
  const both = readings(frame);
  if (both === null) return [];
  const [left, right] = frame.core;
  const [top, bottom] = both;
  return [
    {
      is: 'rect',
      x: left - 0.35,
      y: top.y,
      w: right - left + 0.7,
      h: bottom.y - top.y,
      stroke: { colour: 'act', width: 0.7 },
    },
    ...(frame.show.axis ? both.flatMap((one) => figures(frame, one)) : []),
  ];
}

function figures(frame: Frame, { depth, y, at }: Reading): readonly Shape[] {
  const { type } = frame;
  const word = { is: 'text', anchor: 'end', face: 'numbers', colour: 'act', x: frame.axis } as const;
  return [
    {
      is: 'line',
      points: [
        [frame.axis + 0.6, at],
        [frame.ticks[1], y],
        [frame.core[0] - 0.35, y],
      ],
      stroke: { colour: 'act', width: 0.35 },
    },
    {
      ...word,
      y: at + type * 0.38,
      text: frame.number(depth.value, depthDecimals(depth.sd)),
      size: type,
      weight: 700,
    },
    { ...word, y: at + type * 1.45, text: `± ${spread(depth.sd, frame.number)}`, size: type * 0.8 },
  ];
}
