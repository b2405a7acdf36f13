import type { DepthAssumptions } from './assumptions.ts';
import type { Ordered } from './order.ts';

/**
 * The chain's rows: one per run, and one more wherever a reading ties a place inside a run to a hole bottom (a
 * catcher's mark, the barrel's length). Row 0 is the zero; a last row stands for the run that has not been drilled, so
 * that a sounding after the last run has a fill to touch. Parts: gap above piece i is 2i, its length 2i+1.
 */
export interface Rows {
  readonly count: number;
  /** Run of every row, 1..n, n+1 for the last. */
  readonly run: Int32Array;
  /** 1 where the hole grows deeper, 0 where its bottom is that of the row above. */
  readonly steps: Uint8Array;
  /** Parts of the way from the row above: part[row] .. part[row+1]-1. */
  readonly part: Int32Array;
  /** One-sided quantity of D - B: 1 the stub, -1 the room left in the barrel, 0 none. */
  readonly side: Int8Array;
  /** Barrel's length where side is -1. */
  readonly room: Float64Array;
  /** A reading of D - B and its variance; NaN where there is none. */
  readonly apart: Float64Array;
  readonly apartVariance: Float64Array;
  /** Row with the counter readings of run r, 1..n+1. */
  readonly counter: Int32Array;
  /** Row at the end of run r, 0..n+1. */
  readonly last: Int32Array;
  /** Row whose B is the bottom of the core recovered up to run r. */
  readonly core: Int32Array;
  /** Pieces whose catcher mark contradicts the order of the runs. */
  readonly stray: readonly number[];
}

/** A stub that fills the barrel's spare room counts as possible up to this spare room, metres. */
const ROOMY = 0.35;
/** A run longer than its barrel by more than this: the barrel's length was written down wrongly, and is left out. */
const TOO_LONG = 0.05;

export const rowsOf = (o: Ordered, a: DepthAssumptions): Rows => {
  const n = o.runs.length;
  const run = [0];
  const steps = [1];
  const part = [0, 0];
  const side = [0];
  const room = [0];
  const apart = [Number.NaN];
  const apartVariance = [Number.NaN];
  const counter = new Int32Array(n + 2);
  const last = new Int32Array(n + 2);
  const core = new Int32Array(n + 2);
  const stray: number[] = [];
  let row = 0;
  const add = (r: number, deeper: boolean, end: number, sideOf: number, roomOf = 0): void => {
    row++;
    run.push(r);
    steps.push(deeper ? 1 : 0);
    part.push(end);
    side.push(sideOf);
    room.push(roomOf);
    apart.push(Number.NaN);
    apartVariance.push(Number.NaN);
  };
  const marks = (r: number, by: number): number[] => {
    const out: number[] = [];
    for (let i = o.first[r]; i < o.first[r + 1]; i++) {
      const mark = o.pieces[i].catcherMark;
      if (mark !== undefined && o.place.get(mark.byRun) === by) out.push(i);
    }
    return out;
  };
  const marked = o.pieces.some((piece) => piece.catcherMark !== undefined);
  let placed = 0;
  /** The row at whose end the marked piece begins, tied to the bottom of the hole after run `by`. */
  const tie = (r: number, by: number, deeper: boolean, i: number): void => {
    const end = 2 * i + 1;
    // the row of the barrel may end at this very place
    const shared = end === placed && side[row] < 0;
    if (end <= placed && !shared) {
      stray.push(i);
      return;
    }
    if (!shared) add(r, deeper, end, 0);
    placed = end;
    const mark = o.pieces[i].catcherMark as NonNullable<(typeof o.pieces)[number]['catcherMark']>;
    const height = o.runs[by - 1].catcherHeight;
    apart[row] = mark.depth + (height ?? a.stubMean);
    apartVariance[row] = (mark.sd ?? a.catcherMarkSd) ** 2 + (height === undefined ? a.stubMean ** 2 : 0);
  };
  for (let r = 1; r <= n; r++) {
    counter[r] = row + 1;
    const barrel = needsRoom(o, r);
    if (barrel > 0) {
      // at the top of its first piece, so that ice that was lost above needs no room
      placed = Math.max(placed, 2 * o.first[r] + 1);
      add(r, true, placed, -1, barrel);
    }
    if (marked) for (const i of marks(r, r)) tie(r, r, row + 1 === counter[r], i);
    placed = Math.max(placed, 2 * o.first[r + 1]);
    add(r, row + 1 === counter[r], placed, 1);
    last[r] = core[r] = row;
    const stub = o.runs[r - 1].leftInHole;
    if (stub !== undefined) {
      apart[row] = stub.value;
      apartVariance[row] = stub.sd ** 2;
    }
    if (!marked) continue;
    let next = r + 1;
    while (next <= n && o.first[next] === o.first[next + 1]) next++;
    if (next <= n) for (const i of marks(next, r)) tie(next, r, false, i);
  }
  counter[n + 1] = row + 1;
  add(n + 1, true, placed, 1);
  last[n + 1] = core[n + 1] = row;
  if (marked) {
    // where core of a later run was put above an empty one, what was recovered up to that one ends higher up
    for (let r = 2; r <= n; r++) if (o.first[r] === o.first[r + 1]) core[r] = core[r - 1];
    core[n + 1] = core[n];
    for (let i = 0; i < o.pieces.length; i++) {
      const mark = o.pieces[i].catcherMark;
      if (mark === undefined) continue;
      const by = o.place.get(mark.byRun) as number;
      const r = o.runOfPiece[i];
      if (by > r || (by < r && o.first[by + 1] !== o.first[r])) stray.push(i);
    }
  }
  return {
    count: row,
    run: Int32Array.from(run),
    steps: Uint8Array.from(steps),
    part: Int32Array.from(part),
    side: Int8Array.from(side),
    room: Float64Array.from(room),
    apart: Float64Array.from(apart),
    apartVariance: Float64Array.from(apartVariance),
    counter,
    last,
    core,
    stray: [...new Set(stray)].sort((x, y) => x - y),
  };
};

/** The barrel's length where it may bind in run r, else 0: elsewhere it says nothing and would cost a row. */
const needsRoom = (o: Ordered, r: number): number => {
  const { from, to, barrelLength } = o.runs[r - 1];
  if (barrelLength === undefined || from === undefined || to === undefined) return 0;
  if (o.first[r] === o.first[r + 1]) return 0;
  const spare = barrelLength - (to - from);
  if (spare < -TOO_LONG) return 0;
  if (spare < ROOMY) return barrelLength;
  if (r === 1) return 0;
  if (o.first[r - 1] === o.first[r]) return barrelLength;
  let length = 0;
  for (let i = o.first[r - 1]; i < o.first[r]; i++) length += o.pieces[i].length ?? 0;
  const before = o.runs[r - 2];
  const advance = (before.to ?? Number.NaN) - (before.from ?? Number.NaN);
  return advance - length > spare / 2 ? barrelLength : 0;
};
