import type {
  BreakClass,
  DepthReadings,
  PieceReading,
  RunReading,
  SoundingReading,
} from '@firnbook/science/depth';
import { type Column, cell, cellError, type FieldNames, findColumns, metresIn } from './columns.ts';
import { readNumber } from './number.ts';
import { readTable, type Table, type TableRow } from './table.ts';
import { TableError } from './trouble.ts';

/** Bytes of a file and the name to call it by. */
export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface DepthFiles {
  readonly runs: NamedBytes;
  readonly pieces: NamedBytes;
  readonly soundings?: NamedBytes;
}

/** Readings from files, ready for the adjustment, and the way back from its ids to the files. */
export interface ReadDepthFiles {
  readonly readings: DepthReadings;
  /** Per piece in the order of readings.pieces: run and piece as written in the file. */
  readonly pieceNames: readonly { readonly run: string; readonly piece: string }[];
  /** Run, `run-piece` or after_run as written, by the id in the readings. */
  readonly written: {
    readonly run: ReadonlyMap<string, string>;
    readonly piece: ReadonlyMap<string, string>;
    readonly sounding: ReadonlyMap<string, string>;
  };
  /** Header of each input column as it stands in the files. */
  readonly headers: Readonly<Record<InputField, string>>;
  /** Things that are odd and were taken anyway. */
  readonly remarks: readonly string[];
}

export type InputField = 'from' | 'to' | 'length' | 'topBreak' | 'loss' | 'depth';

const field = (header: string, isNeeded: boolean, ...words: string[]): FieldNames => ({
  header,
  words,
  isNeeded,
});
const runWords = ['run', 'run no', 'run nr', 'run number', 'run #', 'run id'];

const runFields = {
  run: field('run', true, ...runWords, 'no', 'nr', 'number', '#'),
  from: field(
    'depth_from_m',
    true,
    'depth from',
    'from',
    'from depth',
    'depth start',
    'start depth',
    'depth top',
    'top',
  ),
  to: field(
    'depth_to_m',
    true,
    'depth to',
    'to',
    'to depth',
    'depth end',
    'end depth',
    'depth bottom',
    'bottom',
  ),
};
const pieceFields = {
  run: field('run', true, ...runWords),
  piece: field('piece', true, 'piece', 'piece no', 'piece nr', 'piece number', 'piece #', 'piece id'),
  length: field('length_m', true, 'length', 'piece length'),
  topBreak: field('top_break', true, 'top break', 'break', 'break above', 'break top'),
  loss: field('loss_m', false, 'loss', 'lost', 'lost ice', 'loss estimate'),
};
const soundingFields = {
  run: field('after_run', true, 'after run', ...runWords),
  depth: field('hole_depth_m', true, 'hole depth', 'depth', 'sounding', 'sounding depth'),
  sd: field('sd_m', true, 'sd', 'depth sd', 'hole depth sd', 'sigma', 'standard deviation'),
};

/** What people write for a break; further words mean the class whose gap they have. */
const breakWords: Readonly<Record<string, BreakClass>> = {
  fits: 'fits',
  fit: 'fits',
  good: 'fits',
  handling: 'fits',
  'broken in handling': 'fits',
  loss: 'loss',
  lost: 'loss',
  'lost ice': 'loss',
  unsure: 'unsure',
  unknown: 'unsure',
  '?': 'unsure',
  ground: 'unsure',
  spun: 'unsure',
  sawn: 'unsure',
  '': 'unsure',
};

/**
 * Reads the tables of runs, pieces and (if there are any) soundings of one hole.
 *
 * Runs: run, depth_from_m, depth_to_m. Pieces: run, piece, length_m, top_break, loss_m. Soundings: after_run,
 * hole_depth_m, sd_m. Other units in the header (length_cm), comma or point. Depths of runs may be empty.
 * Runs are taken in the order of their numbers where all are whole numbers, else as listed; pieces likewise.
 *
 * @throws TableError with file, line, column and what to do
 */
export const readDepthFiles = (files: DepthFiles): ReadDepthFiles => {
  const runTable = readTable(files.runs.bytes, files.runs.name);
  const pieceTable = readTable(files.pieces.bytes, files.pieces.name);
  const runs = readRuns(runTable);
  const pieces = readPieces(pieceTable, runs.lines, runTable.file);
  const soundings =
    files.soundings === undefined ? null : readSoundings(files.soundings, runs.lines, runTable.file);
  return {
    readings: { runs: runs.readings, pieces: pieces.readings, soundings: soundings?.readings ?? [] },
    pieceNames: pieces.names,
    written: { run: runs.written, piece: pieces.written, sounding: soundings?.written ?? new Map() },
    headers: {
      from: runs.columns.from?.header ?? runFields.from.header,
      to: runs.columns.to?.header ?? runFields.to.header,
      length: pieces.columns.length?.header ?? pieceFields.length.header,
      topBreak: pieces.columns.topBreak?.header ?? pieceFields.topBreak.header,
      loss: pieces.columns.loss?.header ?? pieceFields.loss.header,
      depth: soundings?.columns.depth?.header ?? soundingFields.depth.header,
    },
    remarks: pieces.remarks,
  };
};

/** "007", "7" and "7.0" are one run; what is no number is compared as written. */
const runKey = (text: string): string => {
  const number = readNumber(text);
  return number === null ? text.toLowerCase() : String(number.value);
};

const named = (table: Table, row: TableRow, column: Column, what: string): string => {
  const text = cell(row, column);
  if (text === '')
    throw cellError(table, row, column, `the ${what} is empty`, `Write the number of the ${what}.`);
  return text;
};

const byNumber = <T>(rows: readonly T[], key: (row: T) => string): readonly T[] => {
  const numbers = new Map(rows.map((row) => [row, readNumber(key(row))?.value ?? Number.NaN]));
  if (![...numbers.values()].every(Number.isInteger)) return rows;
  return rows.toSorted((a, b) => numbers.get(a)! - numbers.get(b)!);
};

const readRuns = (table: Table) => {
  const columns = findColumns(table, runFields, ['from', 'to']);
  const lines = new Map<string, number>();
  const written = new Map<string, string>();
  const readings: RunReading[] = [];
  for (const row of table.rows) {
    const run = named(table, row, columns.run!, 'run');
    const key = runKey(run);
    const before = lines.get(key);
    if (before !== undefined)
      throw cellError(
        table,
        row,
        columns.run!,
        `run ${run} is there already, in line ${before}`,
        'Give each run one line; renumber or remove one of the two.',
      );
    lines.set(key, row.line);
    written.set(key, run);
    const from = depthIn(table, row, columns.from!);
    const to = depthIn(table, row, columns.to!);
    readings.push({ id: key, ...(from !== null && { from }), ...(to !== null && { to }) });
  }
  if (readings.length === 0) throw noRows(table, 'runs');
  return { columns, lines, written, readings: byNumber(readings, (run) => run.id) };
};

const depthIn = (table: Table, row: TableRow, column: Column): number | null => {
  const value = metresIn(table, row, column);
  if (value !== null && value < 0)
    throw cellError(
      table,
      row,
      column,
      `the depth ${cell(row, column)} is negative`,
      'Depths count down from the zero: write them without a sign.',
    );
  return value;
};

const knownRun = (
  table: Table,
  row: TableRow,
  column: Column,
  lines: ReadonlyMap<string, number>,
  runFile: string,
): string => {
  const run = named(table, row, column, 'run');
  const key = runKey(run);
  if (!lines.has(key))
    throw cellError(
      table,
      row,
      column,
      `run ${run} is not in ${runFile}`,
      `Add a line for it to ${runFile} (its depths may be empty), or correct the number.`,
    );
  return key;
};

interface ReadPiece {
  readonly piece: string;
  readonly runWritten: string;
  readonly reading: PieceReading;
}

const readPieces = (table: Table, lines: ReadonlyMap<string, number>, runFile: string) => {
  const columns = findColumns(table, pieceFields, ['length', 'loss']);
  const remarks: string[] = [];
  const seen = new Map<string, number>();
  const byRun = new Map<string, ReadPiece[]>([...lines.keys()].map((key) => [key, []]));
  for (const row of table.rows) {
    const run = knownRun(table, row, columns.run!, lines, runFile);
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
        'Write fits, loss or unsure (also: handling, ground, spun, sawn).',
      );
    const loss = metresIn(table, row, columns.loss);
    if (loss !== null && loss < 0)
      throw cellError(
        table,
        row,
        columns.loss!,
        'lost ice has no negative length',
        'Write it without a sign.',
      );
    if (loss !== null && loss > 0 && topBreak !== 'loss')
      remarks.push(
        `${table.file}, line ${row.line}: ${columns.loss!.header} is not used, since ${columns.topBreak!.header} is not "loss".`,
      );
    byRun.get(run)!.push({
      piece,
      runWritten,
      reading: {
        id,
        run,
        topBreak,
        ...(length !== null && { length }),
        ...(loss !== null && topBreak === 'loss' && { loss }),
      },
    });
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
  };
};

const readSoundings = (file: NamedBytes, lines: ReadonlyMap<string, number>, runFile: string) => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, soundingFields, ['depth', 'sd']);
  const written = new Map<string, string>();
  const readings: SoundingReading[] = table.rows.map((row) => {
    const afterRun = knownRun(table, row, columns.run!, lines, runFile);
    const depth = depthIn(table, row, columns.depth!);
    if (depth === null)
      throw cellError(table, row, columns.depth!, 'the depth is empty', 'Write it, or take the line out.');
    const sd = metresIn(table, row, columns.sd);
    if (sd === null || !(sd > 0))
      throw cellError(
        table,
        row,
        columns.sd!,
        'a sounding needs its standard deviation, larger than 0',
        'By weighted tape 0.03 to 0.05 m at 100 m are usual (common practice).',
      );
    const id = `${afterRun} line ${row.line}`;
    written.set(id, cell(row, columns.run));
    return { id, afterRun, depth, sd };
  });
  return { columns, written, readings };
};

const noRows = (table: Table, what: string): TableError =>
  new TableError(
    `there are no ${what}, only a header`,
    { file: table.file },
    `Add one line for each of the ${what}.`,
  );
