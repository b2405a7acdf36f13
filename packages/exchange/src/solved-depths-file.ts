import { cell, type FieldNames, findColumns, metresIn } from './columns.ts';
import type { ReadDensityFile } from './density-file.ts';
import type { NamedBytes } from './named-bytes.ts';
import { readNumber } from './number.ts';
import { readTable } from './table.ts';

const field = (header: string, isNeeded: boolean, ...words: string[]): FieldNames => ({
  header,
  words,
  isNeeded,
});

const fields = {
  run: field('run', false, 'run', 'run no', 'run nr', 'run number', 'run #'),
  piece: field('piece', true, 'piece', 'piece no', 'piece nr', 'piece number', 'piece #', 'piece id'),
  top: field('top_m', true, 'top', 'depth top', 'top depth'),
  bottom: field('bottom_m', true, 'bottom', 'depth bottom', 'bottom depth'),
};

/** "07" and "7" are one run. */
const key = (text: string): string => {
  const number = readNumber(text);
  return number === null ? text.toLowerCase() : String(number.value);
};

/**
 * Puts weighed pieces where a table of solved depths says, by run and piece; that table's depths count, whatever the
 * pieces' own say.
 *
 * @param file as `firnbook depths` writes it: run, piece, top_m, bottom_m
 * @throws TableError with file, line, column and what to do
 */
export const withDepths = (read: ReadDensityFile, file: NamedBytes): ReadDensityFile => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, fields, ['top', 'bottom']);
  const places = new Map(
    table.rows.flatMap((row) => {
      const top = metresIn(table, row, columns.top);
      const bottom = metresIn(table, row, columns.bottom);
      if (top === null || bottom === null || bottom <= top) return [];
      return [[`${key(cell(row, columns.run))}-${key(cell(row, columns.piece))}`, { top, bottom }] as const];
    }),
  );
  const missing: string[] = [];
  const pieces = read.pieces.map((piece, i) => {
    const { top: _, bottom: __, ...rest } = piece;
    const { run, piece: number } = read.names[i]!;
    const place = places.get(`${key(run)}-${key(number)}`);
    if (place === undefined) missing.push(piece.id);
    return { ...rest, ...place };
  });
  return {
    ...read,
    pieces,
    isPlaced: missing.length === 0,
    remarks: [
      ...read.remarks,
      ...(missing.length === 0
        ? []
        : [`Not in ${table.file}: ${missing.slice(0, 10).join(', ')}${missing.length > 10 ? ', ...' : ''}.`]),
    ],
  };
};
