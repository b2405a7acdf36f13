import type { ColumnInput, ColumnPiece, ColumnRun } from '@firnbook/drawing';

/** A stretch of depth in metres, downwards. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Where the hole ends as far as is known: by solution, else by the driller, else at the last piece. */
export function holeEnd(input: ColumnInput): number {
  const depths = [
    ...input.runs.map((run) => run.holeBottom?.value ?? run.to ?? 0),
    input.pieces.at(-1)?.bottom.value ?? 0,
    ...input.marks.map((mark) => mark.depth),
  ];
  return depths.reduce((most, depth) => Math.max(most, depth), 0);
}

/** Runs that can be stepped through: those with a depth. */
export function steppable(input: ColumnInput): readonly ColumnRun[] {
  const cored = new Set(input.pieces.map((piece) => piece.run));
  return input.runs.filter((run) => cored.has(run.id) || run.holeBottom !== null || run.to !== null);
}

/** Depths of one run: its ice, or what was drilled where it brought none. */
export function stretchOf(input: ColumnInput, run: ColumnRun): Stretch {
  const own = input.pieces.filter((piece) => piece.run === run.id);
  const end = run.holeBottom?.value ?? run.to;
  const tops = own.map((piece) => piece.top.value);
  const bottoms = own.map((piece) => piece.bottom.value);
  const from = tops.length > 0 ? Math.min(...tops) : (run.from ?? end ?? 0);
  const to = Math.max(...bottoms, ...(end === null ? [] : [end]), from);
  return { from, to };
}

/** The run at a place in the list and the one before it. */
export function twoRuns(input: ColumnInput, at: number): Stretch {
  const runs = steppable(input);
  const shown = runs.slice(Math.max(0, at - 1), at + 1).map((run) => stretchOf(input, run));
  if (shown.length === 0) return { from: 0, to: 1 };
  const from = Math.min(...shown.map((one) => one.from));
  const to = Math.max(...shown.map((one) => one.to));
  return { from, to: Math.max(to, from + 0.1) };
}

/** The piece at a depth, else the nearest one. */
export function pieceAt(input: ColumnInput, depth: number): ColumnPiece | null {
  let nearest: ColumnPiece | null = null;
  let least = Infinity;
  for (const piece of input.pieces) {
    const away = Math.max(piece.top.value - depth, depth - piece.bottom.value, 0);
    if (away < least) {
      least = away;
      nearest = piece;
    }
  }
  return nearest;
}

/** Place in the list of the run that a piece, or the run itself, belongs to; -1 where there is none. */
export function runPlace(input: ColumnInput, thing: string | null): number {
  const run = input.pieces.find((piece) => piece.id === thing)?.run ?? thing;
  return steppable(input).findIndex((one) => one.id === run);
}

/** Keys that walk along the core, as a screen's words: one piece, one run, either end. */
export type Walk = 'piece up' | 'piece down' | 'run up' | 'run down' | 'top' | 'bottom';

/** The piece that a walk from the selected thing leads to; null where there are no pieces. */
export function walk(input: ColumnInput, selected: string | null, way: Walk): ColumnPiece | null {
  const { pieces } = input;
  const at = pieces.findIndex((piece) => piece.id === selected || piece.run === selected);
  const last = pieces.length - 1;
  switch (way) {
    case 'top':
      return pieces[0] ?? null;
    case 'bottom':
      return pieces[last] ?? null;
    case 'piece up':
      return pieces[at < 0 ? last : Math.max(0, at - 1)] ?? null;
    case 'piece down':
      return pieces[at < 0 ? last : Math.min(last, at + 1)] ?? null;
    case 'run up': {
      const run = pieces[at]?.run;
      if (run === undefined) return pieces[last] ?? null;
      const before = pieces.findLast((piece, place) => place < at && piece.run !== run);
      return pieces.find((piece) => piece.run === (before?.run ?? run)) ?? null;
    }
    case 'run down': {
      const run = pieces[at]?.run;
      if (run === undefined) return pieces[last] ?? null;
      return pieces.find((piece, place) => place > at && piece.run !== run) ?? pieces[last] ?? null;
    }
  }
}

/** A window of `height` millimetres at a scale, moved so that it doesn't leave the hole by more than its margins. */
export function settled(
  from: number,
  mmPerMetre: number,
  height: number,
  end: number,
  margins: { readonly above: number; readonly below: number },
): Stretch {
  const high = height / mmPerMetre;
  const top = -margins.above / mmPerMetre;
  const bottom = end + margins.below / mmPerMetre;
  const start = Math.max(top, Math.min(from, bottom - high));
  return { from: start, to: start + high };
}
