/** Invented: runs 31 to 36 of core CER-B at the Ceredin Saddle, a run without core and a stub among them. */
import type { ColumnDepth, ColumnInput, ColumnPiece, ColumnRun } from './input.ts';

function about(value: number, sd = 0.012): ColumnDepth {
  return { value, sd, min: value - 3 * sd, max: value + 2.4 * sd };
}

/** run, length of each piece in metres, kind of its top break, missing ice above it in metres. */
const logged: readonly (readonly [
  run: number,
  length: number,
  top: ColumnPiece['topBreak'],
  missing: number,
])[] = [
  [31, 0.412, 'fits', 0.001],
  [31, 0.388, 'fits', 0.001],
  [32, 0.39, 'fits', 0.001],
  [32, 0.452, 'fits', 0.001],
  [33, 0.705, 'unsure', 0.006],
  [34, 0.345, 'loss', 0.021],
  [34, 0.546, 'fits', 0.001],
  [36, 0.498, 'loss', 0.052],
  [36, 0.061, 'unsure', 0.009],
  [36, 0.283, 'fits', 0.001],
];

/** Driller's depths: from, to. */
const drilled: readonly (readonly [run: number, from: number, to: number, bottom: number])[] = [
  [31, 26.25, 27.11, 27.04],
  [32, 27.11, 27.96, 27.9],
  [33, 27.96, 28.68, 28.61],
  [34, 28.68, 29.58, 29.51],
  [35, 29.59, 30.02, 29.9],
  [36, 30.02, 30.61, 30.52],
];

function pieces(): readonly ColumnPiece[] {
  let depth = 26.2;
  const count = new Map<number, number>();
  return logged.map(([run, length, topBreak, missing]) => {
    const number = (count.get(run) ?? 0) + 1;
    count.set(run, number);
    const top = depth + missing;
    depth = top + length;
    return {
      id: `piece-${run}-${number}`,
      name: `B-P0${run}.${number}`,
      number,
      run: `run-${run}`,
      top: about(top, topBreak === 'unsure' ? 0.02 : 0.012),
      bottom: about(depth),
      topBreak,
    };
  });
}

function runs(): readonly ColumnRun[] {
  return drilled.map(([run, from, to, bottom]) => ({
    id: `run-${run}`,
    name: `B-R0${run}`,
    from,
    to,
    holeBottom: about(bottom, 0.016),
    nothingRecovered: run === 35,
  }));
}

export const ceredin: ColumnInput = {
  hole: 'hole-b',
  letter: 'B',
  zero: 'snow surface, 12 June',
  firnTo: 60,
  pieces: pieces(),
  runs: runs(),
  soundings: [{ id: 'sounding-36', depth: 30.49 }],
  features: [
    { id: 'melt-32', piece: 'piece-32-1', what: 'melt layer', top: 27.12, bottom: 27.145 },
    { id: 'dust-34', piece: 'piece-34-2', what: 'dust', top: 29.1, bottom: 29.104 },
    { id: 'crust-31', piece: 'piece-31-1', what: 'crust', top: 26.3, bottom: 26.301 },
    { id: 'crack-33', piece: 'piece-33-1', what: 'crack', top: 28.2, bottom: 28.26 },
    { id: 'bubbles-36', piece: 'piece-36-1', what: 'bubbles', top: 29.8, bottom: 29.9 },
    { id: 'other-36', piece: 'piece-36-3', what: 'other', top: 30.3, bottom: 30.3 },
  ],
  marks: [
    {
      kind: 'finding',
      thing: 'piece-36-1',
      depth: pieces().find((one) => one.id === 'piece-36-1')!.top.value,
    },
    { kind: 'conflict', thing: 'run-33', depth: 28.61 },
  ],
};

/** Invented: a hole of many runs, each of pieces that fit, for looking at the whole and for scale. */
export function deepHole(runCount: number, piecesPerRun: number): ColumnInput {
  const all: ColumnPiece[] = [];
  const trips: ColumnRun[] = [];
  let depth = 0;
  for (let run = 1; run <= runCount; run += 1) {
    for (let piece = 1; piece <= piecesPerRun; piece += 1) {
      const topBreak =
        (run * 7 + piece) % 41 === 0 ? 'loss' : (run + 3 * piece) % 11 === 0 ? 'unsure' : 'fits';
      const top = depth + (topBreak === 'loss' ? 0.03 : topBreak === 'unsure' ? 0.004 : 0.001);
      depth = top + 0.2 + (0.3 * ((run * 13 + piece * 5) % 17)) / 17;
      const sd = 0.004 + 0.0008 * depth;
      all.push({
        id: `piece-${run}-${piece}`,
        name: `B-P${String(run).padStart(3, '0')}.${piece}`,
        number: piece,
        run: `run-${run}`,
        top: about(top, sd),
        bottom: about(depth, sd),
        topBreak,
      });
    }
    trips.push({
      id: `run-${run}`,
      name: `B-R${String(run).padStart(3, '0')}`,
      from: null,
      to: Math.round((depth + 0.03) * 1.0035 * 100) / 100,
      holeBottom: about(depth + 0.03, 0.004 + 0.0008 * depth),
      nothingRecovered: false,
    });
  }
  return {
    hole: 'hole-b',
    letter: 'B',
    zero: null,
    firnTo: 60,
    pieces: all,
    runs: trips,
    soundings: [],
    features: [],
    marks: [],
  };
}
