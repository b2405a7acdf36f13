import type { ColourName, Picture, Shape } from '../shape.ts';
import { levelTicks } from './ticks.ts';

/** A height measured at a moment, metres above the first zero. */
interface LevelMeasure {
  readonly id: string;
  /** ms since 1970. */
  readonly at: number;
  readonly height: number;
  /** One standard deviation; null where nobody said. */
  readonly sd: number | null;
}

/** A zero of a hole: a surface that depths count from, from a day on. */
export interface Level {
  readonly id: string;
  readonly name: string;
  /** "snow surface", in the crew's words. */
  readonly surface: string;
  /** As it was set first. */
  readonly set: LevelMeasure;
  /** Measured again, in order of time. */
  readonly again: readonly LevelMeasure[];
  /** What all measurements together say. */
  readonly height: number;
  readonly sd: number;
}

export interface LevelsOptions {
  /** Millimetres. */
  readonly width: number;
  readonly height: number;
  readonly type?: number;
  readonly selected?: string | null;
  readonly number?: (value: number, decimals: number) => string;
  /** A day as the reader writes it. */
  readonly day: (at: number) => string;
  readonly words: {
    /** Read aloud in place of the picture. */
    readonly title: string;
    /** Over the axis: "cm above the first zero". */
    readonly axis: string;
  };
}

interface Frame {
  readonly options: LevelsOptions;
  readonly type: number;
  readonly x: (at: number) => number;
  readonly y: (height: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Smallest range of heights shown, metres: a single zero still has a scale. */
const LEAST = 0.2;
const DAY = 86_400_000;

/**
 * The zeros of a hole to scale: heights upwards in centimetres, time to the right. Each stands from the day it was set
 * to the day of the next one, with its standard deviation as a band and every measurement as a bar.
 *
 * @param levels in order of time
 * @param until end of the time shown, ms since 1970; what was measured later is shown too
 */
export function zeroLevels(levels: readonly Level[], until: number, options: LevelsOptions): Picture {
  const type = options.type ?? 3.3;
  const measures = levels.flatMap((level) => [level.set, ...level.again]);
  const times = [...measures.map(({ at }) => at), until];
  const from = Math.min(...times);
  const to = Math.max(...times, from + DAY);
  const reaches = [
    0,
    ...levels.flatMap(({ height, sd }) => [height - sd, height + sd]),
    ...measures.flatMap(({ height, sd }) => [height - (sd ?? 0), height + (sd ?? 0)]),
  ];
  const middle = (Math.min(...reaches) + Math.max(...reaches)) / 2;
  const span = Math.max(LEAST, (Math.max(...reaches) - Math.min(...reaches)) * 1.25);
  const left = type * 4.6;
  const right = options.width - 1.5;
  const top = type * 3.4;
  const bottom = options.height - type * 2.2;
  const frame: Frame = {
    options,
    type,
    x: (at) => left + ((at - from) / (to - from)) * (right - left),
    y: (height) => (top + bottom) / 2 - ((height - middle) / span) * (bottom - top),
    left,
    right,
    top,
    bottom,
  };
  return {
    width: options.width,
    height: options.height,
    title: options.words.title,
    shapes: [
      ...heights(frame, middle - span / 2, middle + span / 2),
      ...days(frame, from, to),
      ...levels.flatMap((level, at) => levelShapes(frame, level, levels[at + 1]?.set.at ?? to)),
      ...names(frame, levels),
    ],
  };
}

function heights(frame: Frame, least: number, most: number): readonly Shape[] {
  const { options, type, left, right, y } = frame;
  const write = options.number ?? ((value, decimals) => value.toFixed(decimals));
  return [
    text(type, options.words.axis, 0, type * 0.9, 'ink-2', 'start'),
    ...levelTicks(least, most).flatMap((height): readonly Shape[] => [
      line([left, y(height)], [right, y(height)], 'line', height === 0 ? 0.35 : 0.15),
      {
        is: 'text',
        x: left - type * 0.5,
        y: y(height) + type * 0.3,
        text: write(height * 100, 0),
        size: type * 0.85,
        anchor: 'end',
        colour: 'ink-2',
        face: 'numbers',
      },
    ]),
  ];
}

/** Whole days from the first on, as many as there is room for. */
function days({ options, type, x, right, left, bottom }: Frame, from: number, to: number): readonly Shape[] {
  const room = Math.max(1, Math.floor((right - left) / (type * 7)));
  const step = Math.max(1, Math.ceil((to - from) / DAY / room));
  const count = Math.floor((to - from) / DAY / step);
  return Array.from({ length: count + 1 }, (_, at): Shape => {
    const day = from + at * step * DAY;
    const isLast = x(day) > right - type * 3;
    return text(
      type * 0.85,
      options.day(day),
      x(day),
      bottom + type * 1.6,
      'ink-2',
      at === 0 ? 'start' : isLast ? 'end' : 'middle',
    );
  });
}

function levelShapes(frame: Frame, level: Level, to: number): readonly Shape[] {
  const { x, y, options } = frame;
  const [x0, x1] = [x(level.set.at), Math.max(x(level.set.at) + 2, x(to))];
  const isSelected = options.selected === level.id;
  const colour: ColourName = isSelected ? 'act' : 'ink';
  return [
    {
      is: 'rect',
      x: x0,
      y: y(level.height + level.sd),
      w: x1 - x0,
      h: Math.max(0.3, y(level.height - level.sd) - y(level.height + level.sd)),
      fill: 'ice',
      thing: level.id,
    },
    {
      ...line([x0, y(level.height)], [x1, y(level.height)], colour, isSelected ? 0.7 : 0.45),
      thing: level.id,
    },
    ...[level.set, ...level.again].flatMap((measure) => bar(frame, measure, level.id, colour)),
  ];
}

/** A measurement: its height as a small cross-bar on its standard deviation. */
function bar({ x, y }: Frame, { at, height, sd }: LevelMeasure, thing: string, colour: ColourName): Shape[] {
  const [middle, r] = [x(at), 1.1];
  const arms: Shape[] =
    sd === null
      ? []
      : [
          { ...line([middle, y(height - sd)], [middle, y(height + sd)], colour, 0.3), thing },
          {
            ...line([middle - r * 0.6, y(height - sd)], [middle + r * 0.6, y(height - sd)], colour, 0.3),
            thing,
          },
          {
            ...line([middle - r * 0.6, y(height + sd)], [middle + r * 0.6, y(height + sd)], colour, 0.3),
            thing,
          },
        ];
  return [
    ...arms,
    { is: 'circle', x: middle, y: y(height), r: 0.8, fill: 'sheet', stroke: { colour, width: 0.35 }, thing },
  ];
}

/** Each above its line, at its own beginning; moved left where it would not fit. */
function names({ type, x, y, right, top, options }: Frame, levels: readonly Level[]): readonly Shape[] {
  return levels.map((level): Shape => {
    const words = `${level.name}: ${level.surface}`;
    const long = words.length * type * 0.52;
    const start = Math.min(x(level.set.at) + 2, Math.max(0, right - long));
    return {
      ...text(
        type * 0.95,
        words,
        start,
        Math.max(top - type * 0.2, y(level.height + level.sd) - type * 0.6),
        options.selected === level.id ? 'act' : 'ink',
        'start',
      ),
      thing: level.id,
    };
  });
}

const line = (
  from: readonly [number, number],
  to: readonly [number, number],
  colour: ColourName,
  width: number,
): Shape => ({ is: 'line', points: [from, to], stroke: { colour, width } });

const text = (
  size: number,
  words: string,
  x: number,
  y: number,
  colour: ColourName,
  anchor: 'start' | 'middle' | 'end',
): Shape => ({ is: 'text', x, y, text: words, size, anchor, colour, face: 'words' });
