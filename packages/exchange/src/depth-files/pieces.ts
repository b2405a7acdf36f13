import { isOutOfPlaceWord } from '@firnbook/campaign';
import type { BreakClass, PieceReading, RunReading, TrayTape } from '@firnbook/science/depth';
import { type Column, cell, cellError, findColumns, metresIn, printedIn } from '../columns.ts';
import type { Table, TableRow } from '../table.ts';
import {
  byNumber,
  extentIn,
  type KnownRuns,
  knownRun,
  named,
  noRows,
  runKey,
  sdIn,
  wordIn,
} from './cells.ts';
import { field, runWords } from './fields.ts';

export const pieceFields = {
  run: field('run', true, ...runWords),
  piece: field('piece', true, 'piece', 'piece no', 'piece nr', 'piece number', 'piece #', 'piece id'),
  length: field('length_m', true, 'length', 'piece length'),
  topBreak: field('top_break', true, 'top break', 'break', 'break above', 'break top'),
  loss: field('loss_m', false, 'loss', 'lost', 'lost ice', 'loss estimate'),
  kerf: field('kerf_m', false, 'kerf'),
  ice: field('ice', false, 'ice', 'kind of ice'),
  order: field('order', false, 'order'),
  temperature: field('temperature_c', false, 'temperature c', 'temperature', 'core temperature c'),
  judged: field('judged_length_m', false, 'judged length', 'length from mass'),
  judgedSd: field('judged_length_sd_m', false, 'judged length sd', 'length from mass sd'),
  mark: field('catcher_mark_m', false, 'catcher mark'),
  markRun: field('catcher_run', false, 'catcher run'),
  trayTop: field('tray_top_m', false, 'tray top'),
  trayBottom: field('tray_bottom_m', false, 'tray bottom'),
};

const lengths = ['length', 'loss', 'kerf', 'judged', 'judgedSd', 'mark', 'trayTop', 'trayBottom'] as const;

/** What people write for a break. */
const breakWords: Readonly<Record<string, BreakClass>> = {
  fits: 'fits',
  fit: 'fits',
  good: 'fits',
  handling: 'handling',
  'broken in handling': 'handling',
  loss: 'loss',
  lost: 'loss',
  'lost ice': 'loss',
  unsure: 'unsure',
  unknown: 'unsure',
  '?': 'unsure',
  '': 'unsure',
  ground: 'ground',
  spun: 'ground',
  sawn: 'sawn',
  cut: 'sawn',
};

interface ReadPiece {
  readonly piece: string;
  readonly runWritten: string;
  readonly reading: PieceReading;
  readonly tray: { readonly top: number; readonly bottom: number } | null;
}

type Columns = Readonly<Partial<Record<keyof typeof pieceFields, Column>>>;

/** The table of pieces: run, piece, length_m, top_break; the rest may be left out. */
export const readPieces = (table: Table, runs: KnownRuns) => {
  const columns: Columns = findColumns(table, pieceFields, lengths);
  const remarks: string[] = [];
  const seen = new Map<string, number>();
  const byRun = new Map<string, ReadPiece[]>([...runs.lines.keys()].map((key) => [key, []]));
  for (const row of table.rows) {
    const run = knownRun(table, row, columns.run!, runs);
    const piece = named(table, row, columns.piece!, 'piece');
    const runWritten = cell(row, columns.run);
    const id = `${run}-${runKey(piece)}`;
    const before = seen.get(id);
    if (before !== undefined)
      throw cellError(
        table,
        row,
        columns.piece!,
        `piece ${runWritten}-${piece} is there already, in line ${before}`,
        'Give each piece one line; renumber or remove one of the two.',
      );
    seen.set(id, row.line);
    const tray = trayPlace(table, row, columns);
    const reading = pieceReading(table, row, columns, runs, { id, run }, remarks);
    byRun.get(run)!.push({ piece, runWritten, reading, tray });
  }
  // pieces follow the runs' order; within a run their own
  const order = byNumber([...byRun.keys()], (key) => key);
  const pieces = order.flatMap((run) => byNumber(byRun.get(run)!, ({ piece }) => piece));
  if (pieces.length === 0) throw noRows(table, 'pieces');
  return {
    columns,
    remarks,
    readings: pieces.map(({ reading }) => reading),
    names: pieces.map(({ runWritten, piece }) => ({ run: runWritten, piece })),
    written: new Map(pieces.map(({ reading, runWritten, piece }) => [reading.id, `${runWritten}-${piece}`])),
    trays: trayTapes(pieces),
  };
};

function pieceReading(
  table: Table,
  row: TableRow,
  columns: Columns,
  runs: KnownRuns,
  own: { readonly id: string; readonly run: string },
  remarks: string[],
): PieceReading {
  const length = metresIn(table, row, columns.length);
  if (length !== null && !(length > 0))
    throw cellError(
      table,
      row,
      columns.length!,
      `a length of ${cell(row, columns.length)} is not possible`,
      'Write the length of the piece, or leave the cell empty where it was not measured.',
    );
  const topBreak = breakWords[cell(row, columns.topBreak).toLowerCase()];
  if (topBreak === undefined)
    throw cellError(
      table,
      row,
      columns.topBreak!,
      `"${cell(row, columns.topBreak)}" is no kind of break`,
      'Write fits, ground, loss, unsure, sawn or handling.',
    );
  const loss = extentIn(table, row, columns.loss, 'lost ice');
  const isLossUsed = topBreak === 'loss' || topBreak === 'ground';
  if (loss !== null && loss > 0 && !isLossUsed)
    remarks.push(
      `${table.file}, line ${row.line}: ${columns.loss!.header} is not used, since ${columns.topBreak!.header} is not "loss" or "ground".`,
    );
  const kerf = extentIn(table, row, columns.kerf, 'a kerf');
  const ice = wordIn(table, row, columns.ice, ['in place', 'crumbled', 'wall snow', 'chip plug', 'milled']);
  const temperature = printedIn(table, row, columns.temperature);
  if (temperature !== null && temperature.value > 0)
    throw cellError(
      table,
      row,
      columns.temperature!,
      'ice is not warmer than 0 °C',
      'Write it in °C, below zero.',
    );
  const judged = extentIn(table, row, columns.judged, 'a judged length');
  const judgedSd = sdIn(table, row, columns.judgedSd, 'Of a length from mass a twentieth of it is usual.');
  const mark = extentIn(table, row, columns.mark, 'a catcher mark');
  const byRun =
    columns.markRun === undefined || cell(row, columns.markRun) === ''
      ? null
      : knownRun(table, row, columns.markRun, runs);
  const order = wordIn(table, row, columns.order, ['sure', 'unsure']);
  return {
    ...own,
    topBreak,
    ...(length !== null && { length }),
    ...(loss !== null && isLossUsed && { loss }),
    ...(kerf !== null && topBreak === 'sawn' && { kerf }),
    ...(temperature !== null && { temperature: temperature.value }),
    ...(ice !== null && isOutOfPlaceWord(ice) && { outOfPlace: true }),
    ...(judged !== null &&
      judged > 0 && { crumbledMassLength: { value: judged, sd: judgedSd ?? judged / 20 } }),
    ...(mark !== null && { catcherMark: { depth: mark, byRun: byRun ?? own.run } }),
    ...(order === 'unsure' && { orderUnsure: true }),
  };
}

function trayPlace(table: Table, row: TableRow, columns: Columns): ReadPiece['tray'] {
  const top = metresIn(table, row, columns.trayTop);
  const bottom = metresIn(table, row, columns.trayBottom);
  if (top === null && bottom === null) return null;
  if (top === null || bottom === null || !(bottom > top))
    throw cellError(
      table,
      row,
      (columns.trayTop ?? columns.trayBottom)!,
      'a piece on the tray tape has a top, and a bottom below it',
      'Write both places on the tape, or leave both empty.',
    );
  return { top, bottom };
}

/** A tape counts where every piece of its run has its place on it. */
function trayTapes(pieces: readonly ReadPiece[]): ReadonlyMap<string, TrayTape> {
  const runs = grouped(pieces);
  const tapes = new Map<string, TrayTape>();
  for (const [run, own] of runs) {
    if (own.some(({ tray }) => tray === null)) continue;
    tapes.set(run, { breaks: own.map(({ reading, tray }) => ({ piece: reading.id, ...tray! })) });
  }
  return tapes;
}

function grouped(pieces: readonly ReadPiece[]): Map<string, ReadPiece[]> {
  const runs = new Map<string, ReadPiece[]>();
  for (const piece of pieces) {
    const own = runs.get(piece.reading.run);
    if (own === undefined) runs.set(piece.reading.run, [piece]);
    else own.push(piece);
  }
  return runs;
}

/** The runs with the tapes that their pieces lay along. */
export const withTrays = (
  runs: readonly RunReading[],
  trays: ReadonlyMap<string, TrayTape>,
): readonly RunReading[] =>
  runs.map((run) => {
    const trayTape = trays.get(run.id);
    return trayTape === undefined ? run : { ...run, trayTape };
  });
