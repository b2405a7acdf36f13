import type { Shape } from '../shape.ts';
import type { Frame } from './frame.ts';
import type { ColumnRun } from './input.ts';
import { benchLength, depthDecimals, spread } from './options.ts';

/** Room between core and wall: the cutters' share. Not to scale, like the core's width. */
const wall = 1.3;

/** What the core came out of: walls, zero, the ice that is still down there, and the bottom. */
export function hole(frame: Frame): readonly Shape[] {
  const [left, right] = frame.core;
  const { deepest, coreBottom } = frame;
  const bottom = deepest?.holeBottom ?? null;
  const to = bottom?.value ?? coreBottom;
  if (to === null) return zero(frame);
  const shapes: Shape[] = [left - wall, right + wall].map((x) => ({
    is: 'line',
    points: [
      [x, Math.max(frame.y(0), frame.head - 2)],
      [x, Math.min(frame.y(to), frame.height + 2)],
    ],
    stroke: { colour: 'line', width: 0.2 },
  }));
  if (bottom !== null && deepest !== null) {
    const y = frame.y(bottom.value);
    const high = coreBottom === null ? 0 : y - frame.y(coreBottom);
    if (high > 0.15) shapes.push(...standing(frame, y - high, y, deepest));
    shapes.push({
      is: 'line',
      points: [
        [left - wall, y],
        [right + wall, y],
      ],
      stroke: { colour: 'ink', width: 0.5 },
      thing: deepest.id,
    });
  }
  return [...shapes, ...zero(frame)];
}

/** Between the core's bottom and the hole's: ice that still stands there, or core that is not written down yet. */
function standing(frame: Frame, top: number, bottom: number, last: ColumnRun): readonly Shape[] {
  const [left, right] = frame.core;
  const sides: Shape[] = [left, right].map((x) => ({
    is: 'line',
    points: [
      [x, top],
      [x, bottom],
    ],
    stroke: { colour: 'ink-2', width: 0.25, dash: [0.9, 0.7] },
  }));
  const place = { is: 'rect', x: left, y: top, w: right - left, h: bottom - top, thing: last.id } as const;
  return [frame.deepestLogged ? { ...place, fill: 'ice-lit' } : place, ...sides];
}

/** What stands under the hole's bottom in words: its depth, and how much of it is not in the core yet. */
export function holeLabels(frame: Frame): readonly Shape[] {
  const bottom = frame.deepest?.holeBottom ?? null;
  if (bottom === null) return [];
  const { value, sd } = bottom;
  const core = frame.coreBottom ?? 0;
  const y = frame.y(value);
  if (y > frame.height || y < frame.head) return [];
  const depth = frame.number(value, depthDecimals(sd));
  const texts = [frame.say('holeBottom', { depth, sd: spread(sd, frame.number) })];
  if (value - core > 0.0005)
    texts.push(
      frame.say(frame.deepestLogged ? 'underCore' : 'notLogged', {
        long: benchLength(value - core, frame.number),
      }),
    );
  const wide = Math.max(...texts.map((text) => text.length)) * frame.type * 0.52;
  return [
    {
      is: 'rect',
      x: frame.core[0] - wall,
      y: y + frame.type * 0.5,
      w: wide,
      h: texts.length * frame.type * 1.3,
      fill: 'sheet',
    },
    ...texts.map((text, at) => label(frame, y + frame.type * (1.4 + 1.3 * at), text)),
  ];
}

function label(frame: Frame, y: number, text: string): Shape {
  return {
    is: 'text',
    x: frame.core[0] - wall,
    y,
    text,
    size: frame.type,
    anchor: 'start',
    colour: 'ink',
    face: 'words',
  };
}

/** The surface that depths count from. */
function zero(frame: Frame): readonly Shape[] {
  const y = frame.y(0);
  if (y < frame.head - 1 || y > frame.height + 1) return [];
  const what = frame.input.zero;
  const [from, to] = [frame.core[0] - wall - 1.5, frame.core[1] + wall + 1.5];
  const line: Shape = {
    is: 'line',
    points: [
      [from, y],
      [to, y],
    ],
    stroke: { colour: 'ink', width: 0.5 },
    thing: frame.input.hole,
  };
  if (!frame.show.runs) return [line];
  const text = what === null ? frame.say('zeroUnnamed') : frame.say('zero', { what });
  return [line, label(frame, y - frame.type * 0.5, text)];
}
