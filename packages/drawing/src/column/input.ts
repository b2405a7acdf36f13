import type { ConflictView, DepthView, HoleView, PieceView, RunView, ThingView } from '@firnbook/campaign';

/** What the core column shows; every depth in metres below the hole's zero, downwards. */
export interface ColumnInput {
  readonly hole: string;
  /** "B". */
  readonly letter: string;
  /** What zero is, in the crew's words. */
  readonly zero: string | null;
  /** Above this the ice is drawn as firn; the solver's assumption. */
  readonly firnTo: number;
  /** From the top of the core down. */
  readonly pieces: readonly ColumnPiece[];
  readonly runs: readonly ColumnRun[];
  readonly marks: readonly ColumnMark[];
  readonly soundings: readonly { readonly id: string; readonly depth: number }[];
}

/** Like science's Estimate: mean, standard deviation, and the range that the constraints leave. */
export interface ColumnDepth {
  readonly value: number;
  readonly sd: number;
  readonly min: number;
  readonly max: number;
}

export interface ColumnPiece {
  readonly id: string;
  readonly name: string;
  readonly number: number;
  readonly run: string;
  readonly top: ColumnDepth;
  readonly bottom: ColumnDepth;
  /** How its top meets the piece above. */
  readonly topBreak: 'fits' | 'loss' | 'unsure';
}

export interface ColumnRun {
  readonly id: string;
  readonly name: string;
  /** The driller's depths, from the cable. */
  readonly from: number | null;
  readonly to: number | null;
  readonly holeBottom: ColumnDepth | null;
  readonly nothingRecovered: boolean;
}

/** Where a person is needed. */
export interface ColumnMark {
  readonly kind: 'finding' | 'conflict';
  readonly thing: string;
  readonly depth: number;
}

/** A hole and its solved depths as the column takes them. Without depths, only the driller's depths can be drawn. */
export function columnInput(hole: HoleView, depths: DepthView | null): ColumnInput {
  const runs = hole.runs.filter((run) => run.withdrawn === null);
  const shown: ColumnInput = {
    hole: hole.id,
    letter: hole.letter,
    zero: zeroWords(hole.zeros),
    firnTo: depths?.assumptions.firnTo ?? 0,
    pieces: runs
      .flatMap((run) => run.pieces.map((piece) => columnPiece(piece, depths)))
      .filter((piece) => piece !== null)
      .sort((a, b) => a.top.value - b.top.value),
    runs: runs.map((run) => columnRun(run, depths)),
    soundings: hole.soundings
      .filter((one) => one.withdrawn === null)
      .map((one) => ({ id: one.id, depth: reading(one, 'depth') }))
      .filter((one) => one.depth !== null)
      .map((one) => ({ id: one.id, depth: one.depth ?? 0 })),
    marks: [],
  };
  return { ...shown, marks: marksOf(shown, hole.conflicts, depths) };
}

function columnPiece(piece: PieceView, depths: DepthView | null): ColumnPiece | null {
  const solved = depths?.pieces[piece.id];
  if (solved === undefined || piece.withdrawn !== null) return null;
  const word = piece.readings.topBreak?.text.trim();
  return {
    id: piece.id,
    name: piece.name,
    number: piece.number,
    run: piece.run,
    top: solved.top,
    bottom: solved.bottom,
    topBreak: word === 'fits' || word === 'loss' ? word : 'unsure',
  };
}

function columnRun(run: RunView, depths: DepthView | null): ColumnRun {
  const solved = depths?.runs[run.id];
  return {
    id: run.id,
    name: run.name,
    from: reading(run, 'from'),
    to: reading(run, 'to'),
    holeBottom: solved?.holeBottom ?? null,
    nothingRecovered: run.nothingRecovered,
  };
}

function reading(thing: ThingView, field: string): number | null {
  return thing.readings[field]?.value ?? null;
}

function zeroWords(zeros: readonly ThingView[]): string | null {
  const zero = zeros.filter((one) => one.withdrawn === null).at(-1);
  return zero === undefined ? null : (zero.readings.surface?.text ?? zero.name);
}

function marksOf(
  shown: ColumnInput,
  conflicts: readonly ConflictView[],
  depths: DepthView | null,
): readonly ColumnMark[] {
  const marks: ColumnMark[] = [];
  const add = (kind: ColumnMark['kind'], thing: string, field: string | undefined): void => {
    const depth = depthOf(shown, thing, field);
    if (depth !== null) marks.push({ kind, thing, depth });
  };
  for (const finding of depths?.findings ?? []) add('finding', finding.which, finding.field);
  for (const conflict of conflicts)
    for (const thing of conflict.things) add('conflict', thing, conflict.field);
  return marks.sort((a, b) => a.depth - b.depth);
}

/** Where a thing's reading stands on the axis. */
function depthOf(shown: ColumnInput, thing: string, field: string | undefined): number | null {
  const piece = shown.pieces.find((one) => one.id === thing);
  if (piece !== undefined)
    return field === 'topBreak' || field === 'loss'
      ? piece.top.value
      : (piece.top.value + piece.bottom.value) / 2;
  const run = shown.runs.find((one) => one.id === thing);
  if (run !== undefined) {
    const first = shown.pieces.find((one) => one.run === thing);
    if (field === 'from' && first !== undefined) return first.top.value;
    return run.holeBottom?.value ?? run.to ?? first?.top.value ?? null;
  }
  return shown.soundings.find((one) => one.id === thing)?.depth ?? (thing === shown.hole ? 0 : null);
}
