import {
  type ConflictView,
  type DepthView,
  featurePlace,
  type HoleView,
  type PieceView,
  type RunView,
  type ThingView,
} from '@firnbook/campaign';

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
  /** From the top down. */
  readonly features: readonly ColumnFeature[];
}

/** Something seen in a piece, at the depths that the piece's solved ends give it. */
export interface ColumnFeature {
  readonly id: string;
  readonly piece: string;
  readonly what: 'melt layer' | 'crust' | 'dust' | 'crack' | 'bubbles' | 'other';
  readonly top: number;
  readonly bottom: number;
}

/** Like science's Estimate: mean, standard deviation, and the range that the constraints leave. */
export interface ColumnDepth {
  readonly value: number;
  readonly sd: number;
  readonly min: number;
  readonly max: number;
}

/** How two pieces meet, as pieces are logged. */
export type ColumnBreak = 'fits' | 'ground' | 'loss' | 'unsure' | 'sawn' | 'handling';

/** Nothing is missing at such a break: both ends have one shape. */
export const isWhole = (topBreak: ColumnBreak): boolean => topBreak === 'fits' || topBreak === 'handling';

export interface ColumnPiece {
  readonly id: string;
  readonly name: string;
  readonly number: number;
  readonly run: string;
  readonly top: ColumnDepth;
  readonly bottom: ColumnDepth;
  /** How its top meets the piece above. */
  readonly topBreak: ColumnBreak;
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
    features: [],
    marks: [],
  };
  const seen = { ...shown, features: featuresOf(hole, shown.pieces) };
  return { ...seen, marks: marksOf(seen, hole.conflicts, depths) };
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
    topBreak: breaks.find((one) => one === word) ?? 'unsure',
  };
}

const breaks: readonly ColumnBreak[] = ['fits', 'ground', 'loss', 'unsure', 'sawn', 'handling'];
const kindsSeen: readonly ColumnFeature['what'][] = [
  'melt layer',
  'crust',
  'dust',
  'crack',
  'bubbles',
  'other',
];

/** Anchored to ice: distances from a named end of the piece, held inside it. */
function featuresOf(hole: HoleView, pieces: readonly ColumnPiece[]): readonly ColumnFeature[] {
  const logged = hole.others.feature ?? [];
  if (logged.length === 0) return [];
  const solved = new Map(pieces.map((piece) => [piece.id, piece]));
  // A feature of a piece that was joined into another one lies on that one.
  for (const { id, absorbed = [] } of hole.runs.flatMap((run) => run.pieces)) {
    const piece = solved.get(id);
    if (piece !== undefined) for (const other of absorbed) solved.set(other, piece);
  }
  return logged
    .flatMap((feature): readonly ColumnFeature[] => {
      const piece = solved.get(feature.readings.piece?.text ?? '');
      if (feature.withdrawn !== null || piece === undefined) return [];
      const place = featurePlace(feature, { top: piece.top.value, bottom: piece.bottom.value });
      if (place === null) return [];
      const what = feature.readings.what?.text;
      return [
        {
          id: feature.id,
          piece: piece.id,
          what: kindsSeen.find((one) => one === what) ?? 'other',
          ...place,
        },
      ];
    })
    .sort((a, b) => a.top - b.top);
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
  const feature = shown.features.find((one) => one.id === thing);
  if (feature !== undefined) return (feature.top + feature.bottom) / 2;
  return shown.soundings.find((one) => one.id === thing)?.depth ?? (thing === shown.hole ? 0 : null);
}
