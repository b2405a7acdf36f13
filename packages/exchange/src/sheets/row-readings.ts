import { type Field, type Kind, readReading, sayEnglish } from '@firnbook/campaign';
import { type Cell, isBlank, textOf } from './cells.ts';
import { readDate } from './dates.ts';
import { isMeasure, markOf, orderOf, unitOf } from './fields.ts';
import type { ColumnReading, ImportMapping, Source, TableMapping } from './mapping.ts';
import { plainNumeral, readNumeral, saysNothing } from './numerals.ts';
import type { SheetRow, SheetTable } from './tables.ts';
import { wordMeant } from './trade-words.ts';

/** A cell's reading as it will be logged: null where the cell says nothing. */
type CellReading =
  | { readonly ok: true; readonly text: string | null }
  | { readonly ok: false; readonly what: string; readonly mend: string };

/** Turns cells of one column into readings of one field, by everything that is known of the column. */
export type FieldReader = (row: SheetRow) => CellReading;

const said = (text: string): CellReading => ({ ok: true, text });
const silent: CellReading = { ok: true, text: null };
const bad = (what: string, mend: string): CellReading => ({ ok: false, what, mend });
const quoted = (cell: Cell): string => `"${textOf(cell).slice(0, 40)}"`;

/**
 * Reader of a field for the rows of a table.
 *
 * @throws never; what a cell cannot say comes back with words
 */
export const fieldReader = (
  kind: Kind,
  field: Field,
  source: Exclude<Source, { readonly from: 'order' }>,
  table: SheetTable,
  mapped: TableMapping,
  mapping: ImportMapping,
): FieldReader => {
  if (source.from === 'text') {
    const reading = checked(source.text, field, kind);
    return () => reading;
  }
  const { column } = source;
  const known = mapped.columns[column] ?? {};
  const read = cellReader(kind, field, table, column, known, mapping);
  let above: Cell = '';
  return (row) => {
    let cell = row.cells[column]!;
    if (known.blanks === 'as above') {
      if (isBlank(cell)) cell = above;
      above = cell;
    }
    if (isBlank(cell) || saysNothing(cell)) return silent;
    // a merged cell names a group; one mass under two pieces is not the mass of each
    if (row.merged.includes(column) && isMeasure(field)) return silent;
    if (typeof cell !== 'string' && cell.as === 'error')
      return bad(
        cell.text === '' ? 'the formula holds no value' : `the cell holds the error ${cell.text}`,
        'Mend the formula, or type the value.',
      );
    return read(cell);
  };
};

const cellReader = (
  kind: Kind,
  field: Field,
  table: SheetTable,
  column: number,
  known: ColumnReading,
  mapping: ImportMapping,
): ((cell: Cell) => CellReading) => {
  switch (field.quantity) {
    case 'count':
    case 'thing':
      return (cell) => {
        const number = wholeNumber(cell);
        if (number === null && field.quantity === 'count')
          return bad(`${quoted(cell)} is not a whole number from 1 on`, 'Write it like 34.');
        return checked(number ?? textOf(cell), field, kind);
      };
    case 'word':
      return (cell) => {
        const word = wordMeant(textOf(cell), field.words);
        if (word === null)
          return bad(`${quoted(cell)} is not a word for this`, `Write one of: ${field.words.join(', ')}.`);
        return said(word);
      };
    case 'time':
      return (cell) => {
        const date = readDate(cell, known.dates ?? orderOf(table, column));
        const offset = date?.offset ?? mapping.offset;
        const day = date?.day ?? mapping.givenDay;
        if (date === null || day === null || offset === null)
          return bad(
            `${quoted(cell)} is no moment`,
            'Write day and time as 2026-06-14 08:30, and state the offset.',
          );
        return checked(`${day}T${date.time ?? '12:00:00'}${offset}`, field, kind);
      };
    case 'text':
    case 'lengths':
    case 'position':
    case 'attachment':
      return (cell) => checked(textOf(cell), field, kind);
    default: {
      const found = unitOf(kind, field, table, column);
      const unit = known.unit ?? (found.is === 'unclear' ? '' : found.unit);
      const decided = markOf(table, column);
      const mark = known.mark ?? (decided === 'ask' ? null : decided);
      return (cell) => measured(cell, unit, mark, field, kind);
    }
  }
};

const measured = (
  cell: Cell,
  unit: string,
  mark: Parameters<typeof plainNumeral>[1],
  field: Field,
  kind: Kind,
): CellReading => {
  if (typeof cell !== 'string' && cell.as !== 'number')
    return bad(
      cell.as === 'date' || cell.as === 'time'
        ? `a spreadsheet program has made a date of it: ${cell.text}`
        : `${quoted(cell)} is no number`,
      'Set the cell to a number and type it again.',
    );
  const numeral = plainNumeral(cell, mark);
  if (numeral !== null) return checked(unit === '' ? numeral : `${numeral} ${unit}`, field, kind);
  const own = textOf(cell);
  if (readNumeral(own)?.limit != null)
    return bad(
      `${quoted(cell)} is a limit, not a reading`,
      'Write the figure that was read, or leave the cell empty.',
    );
  const behind = /^(.*?[\d.,])\s*([\p{L}\u00b5\u00b0%\u2030"'\u2032\u2033][^\d]*)$/u.exec(own);
  const before = behind === null ? null : plainNumeral(behind[1]!, mark);
  const withUnit = before === null ? null : checked(`${before} ${behind![2]}`, field, kind);
  if (withUnit?.ok) return withUnit;
  return bad(
    `${quoted(cell)} is no number`,
    /^[\d.,' ]+$/.test(own)
      ? 'Write it with one decimal mark and without separators of thousands.'
      : 'Write the number alone, with its unit in the heading, or leave the cell empty.',
  );
};

/** "7", "7.0", "007" and the number 7 are one; null for everything else. */
const wholeNumber = (cell: Cell): string | null => {
  const match = /^0*(\d{1,9})(?:[.,]0+)?$/.exec(textOf(cell));
  return match === null ? null : match[1]!;
};

/** By the campaign's own reader, so that nothing is logged that could not be read back. */
const checked = (text: string, field: Field, kind: Kind): CellReading => {
  const read = readReading(text, field, kind);
  return read.ok ? said(text) : bad(withoutStop(sayEnglish(read.what)), sayEnglish(read.mend));
};

const withoutStop = (text: string): string => text.replace(/\.$/, '');
