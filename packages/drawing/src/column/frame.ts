import type { ColumnInput, ColumnRun } from './input.ts';
import { near } from './near.ts';
import {
  type ColumnOptions,
  type ColumnParts,
  type ColumnWord,
  everything,
  sayInEnglish,
} from './options.ts';

/** Where everything stands: the columns of the picture, and the one scale that turns depth into height. */
export interface Frame {
  /** The part of the hole that the window can show. */
  readonly input: ColumnInput;
  /** The last run whose hole bottom is solved, and the bottom of the last piece of the whole hole. */
  readonly deepest: ColumnRun | null;
  readonly coreBottom: number | null;
  /** What that run brought up is written down; else its ice is on the bench, not in the hole. */
  readonly deepestLogged: boolean;
  readonly options: ColumnOptions;
  readonly show: ColumnParts;
  readonly type: number;
  readonly say: (word: ColumnWord, values?: Readonly<Record<string, string | number>>) => string;
  readonly number: (value: number, decimals: number) => string;
  readonly height: number;
  /** Height of the heading; depth starts under it. */
  readonly head: number;
  readonly y: (depth: number) => number;
  /** Right end of the axis labels, and the ticks after it. */
  readonly axis: number;
  readonly ticks: readonly [number, number];
  /** Symbols of breaks, left of the core. */
  readonly breaks: number;
  readonly core: readonly [number, number];
  /** Bars of uncertainty: tops, bottoms. */
  readonly bars: readonly [number, number];
  /** Middle of the symbols where a person is needed. */
  readonly marks: number;
  /** Brackets of runs; their names start 4 mm after. */
  readonly runs: number;
  /** The driller's depths. */
  readonly driller: number;
}

/** Millimetres over the first depth that the names of the scales take. */
export function headingHeight(type: number): number {
  return type * 2.2;
}

export function frameFor(input: ColumnInput, options: ColumnOptions): Frame {
  const { mmPerMetre, window, width } = options;
  if (!(mmPerMetre > 0) || !(window.to > window.from) || !(width > 0))
    throw new Error(
      `A core column of ${width} mm at ${mmPerMetre} mm per metre from ${window.from} to ${window.to} m can't be drawn; width and scale must be above 0 and the window must run downwards.`,
    );
  const show = { ...everything, ...options.show };
  const type = options.type ?? 3.3;
  const head = show.heading ? headingHeight(type) : 0;
  const glyph = type * 0.6;
  // "3214.50", or "± 12 cm" in smaller type under a selected depth.
  const figures = String(Math.floor(Math.max(1, window.to))).length + (hasFine(input, options) ? 4 : 3);
  const axis = show.axis ? glyph * Math.max(5.8, figures + 0.4) : 0;
  const left = show.axis ? axis + 7.5 : 1;
  const drillerWidth = show.driller ? glyph * (figures + 0.4) + 2.5 : 0;
  const right =
    (show.uncertainty ? 5.5 : 0) + (show.marks ? 5.8 : 0) + (show.runs ? 5 + glyph * 7.4 : 0) + drillerWidth;
  const wide = Math.min(30, Math.max(6, width - left - right - 1));
  const core: readonly [number, number] = [left + 1, left + wide];
  const marks = core[1] + (show.uncertainty ? 5.5 : 0) + 3.5;
  const runs = marks + (show.marks ? 3.2 : -1.5);
  const deepest = input.runs.findLast((run) => run.holeBottom !== null) ?? null;
  // Signs, bars and links of what is just outside reach in.
  const reach = 50 / mmPerMetre;
  return {
    input: near(input, window.from - reach, window.to + reach),
    deepest,
    coreBottom: input.pieces.at(-1)?.bottom.value ?? null,
    deepestLogged:
      deepest === null || deepest.nothingRecovered || input.pieces.some((piece) => piece.run === deepest.id),
    options,
    show,
    type,
    say: options.say ?? sayInEnglish,
    number: options.number ?? ((value, decimals) => value.toFixed(decimals)),
    head,
    height: head + (window.to - window.from) * mmPerMetre,
    y: (depth) => head + (depth - window.from) * mmPerMetre,
    axis,
    ticks: [axis + 0.8, axis + 3.2],
    breaks: axis + 5.6,
    core,
    bars: [core[1] + 2.2, core[1] + 4.2],
    marks,
    runs,
    driller: runs + (show.runs ? 5 + glyph * 7.4 : 2),
  };
}

/** Whether what is selected has a depth that is told to a millimetre. */
function hasFine({ pieces }: ColumnInput, { selected }: ColumnOptions): boolean {
  return pieces.some(
    (piece) =>
      (piece.id === selected || piece.run === selected) && Math.min(piece.top.sd, piece.bottom.sd) < 0.0095,
  );
}

/** Whether depths from `top` to `bottom` show in the picture, with `more` millimetres to spare. */
export function inSight(frame: Frame, top: number, bottom: number, more = 4): boolean {
  return frame.y(bottom) >= frame.head - more && frame.y(top) <= frame.height + more;
}
