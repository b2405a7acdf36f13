import type { Field, Kind } from '@firnbook/campaign';
import { type CellPlace, cellPlaceInWords, isBlank, textOf, type Unread } from './cells.ts';
import { keyFields } from './fields.ts';
import type { ImportMapping, Source, ThingMapping } from './mapping.ts';
import { type FieldReader, fieldReader } from './row-readings.ts';
import { isEmptyRow, type ReadSheets, type SheetRow, type SheetTable } from './tables.ts';
import { whenOf } from './when.ts';

/** What one row says of one thing, readable as a whole. */
export interface LoggedRow {
  /** Index of the table. */
  readonly table: number;
  /** Row of the file. */
  readonly row: number;
  readonly kind: Kind;
  /** As `log` commands take them; a thing that it hangs on by its number or name. */
  readonly readings: Readonly<Record<string, string>>;
  readonly at: string;
  readonly exact: 'moment' | 'day' | 'stated day';
}

export interface RowsToLog {
  readonly rows: readonly LoggedRow[];
  /** Rows held back: each cell that keeps its row from being logged. */
  readonly unread: readonly Unread[];
  /** Rows that name another hole. */
  readonly elsewhere: number;
}

/** The hole that rows are logged into: how a table may call it. */
export interface HoleNames {
  readonly letter: string;
  readonly name: string;
}

/**
 * Rows of all mapped tables as things to log. A row with a cell that cannot be read is held back whole, so that
 * nothing is logged by halves; mended and imported again it comes in.
 */
export const rowsToLog = (
  read: ReadSheets,
  mapping: ImportMapping,
  kinds: readonly Kind[],
  hole: HoleNames | null,
): RowsToLog => {
  const rows: LoggedRow[] = [];
  const unread = new Map<string, Unread>();
  let elsewhere = 0;
  const note = (one: Unread): void => {
    const key = cellPlaceInWords(one.place);
    if (!unread.has(key)) unread.set(key, one);
  };
  mapping.tables.forEach((mapped, index) => {
    const table = read.tables[index]!;
    const isHere = (row: SheetRow): boolean => {
      const cell = mapped.hole === null ? '' : row.cells[mapped.hole]!;
      if (isBlank(cell) || hole === null) return true;
      const said = textOf(cell).toLowerCase();
      return [hole.letter, hole.name, `hole ${hole.letter}`].some((name) => name.toLowerCase() === said);
    };
    const wanted = table.rows.filter((row) => !isEmptyRow(row));
    const here = wanted.filter(isHere);
    if (mapped.things.length > 0) elsewhere += wanted.length - here.length;
    for (const thing of mapped.things) {
      const kind = kinds.find((one) => one.kind === thing.kind);
      if (kind === undefined) continue;
      const reader = rowReader(kind, thing, table, (field, source) =>
        fieldReader(kind, field, source, table, mapped, mapping),
      );
      for (const row of here) {
        const said = reader(row);
        if (said === null) continue;
        const when = whenOf(row, table, mapped, mapping);
        for (const one of said.unread) note(one);
        if (!when.ok) note({ place: placeOf(table, row, when.column), what: when.what, mend: when.mend });
        else if (said.unread.length === 0)
          rows.push({
            table: index,
            row: row.row,
            kind,
            readings: said.readings,
            at: when.at,
            exact: when.exact,
          });
      }
    }
  });
  return { rows: once(rows, read, note), unread: [...unread.values()], elsewhere };
};

const placeOf = (table: SheetTable, row: SheetRow, column: number | null): CellPlace => ({
  sheet: table.sheet,
  row: row.row,
  column: column === null ? null : table.columns[column]!.column,
  ...(column !== null && { header: table.columns[column]!.text }),
});

interface SaidRow {
  readonly readings: Record<string, string>;
  readonly unread: readonly Unread[];
}

/** Null for rows that say nothing of such a thing. */
const rowReader = (
  kind: Kind,
  thing: ThingMapping,
  table: SheetTable,
  readerOf: (field: Field, source: Exclude<Source, { readonly from: 'order' }>) => FieldReader,
): ((row: SheetRow) => SaidRow | null) => {
  const readers = kind.fields.flatMap((field) => {
    const source = Object.hasOwn(thing.fields, field.name) ? thing.fields[field.name]! : null;
    if (source === null || source.from === 'order') return [];
    return [{ field, source, read: readerOf(field, source) }];
  });
  const counted = kind.fields.filter((field) => thing.fields[field.name]?.from === 'order');
  const counts = new Map<string, number>();
  return (row) => {
    const readings: Record<string, string> = {};
    const unread: Unread[] = [];
    let saysAny = false;
    for (const { field, source, read } of readers) {
      const column = source.from === 'column' ? source.column : null;
      const reading = read(row);
      if (!reading.ok)
        unread.push({ place: placeOf(table, row, column), what: reading.what, mend: reading.mend });
      else if (reading.text !== null) {
        readings[field.name] = reading.text;
        if (source.from === 'column') saysAny = true;
      } else if (field.required) unread.push(missing(kind, field, placeOf(table, row, column)));
    }
    if (!saysAny && unread.every(({ what }) => what.startsWith('the cell is blank'))) return null;
    for (const field of counted) {
      const parent = keyFields(kind)
        .filter((one) => one !== field)
        .map((one) => readings[one.name])
        .join('|');
      const count = (counts.get(parent) ?? 0) + 1;
      counts.set(parent, count);
      readings[field.name] = String(count);
    }
    return { readings, unread };
  };
};

const missing = (kind: Kind, field: Field, place: CellPlace): Unread => ({
  place,
  what: `the cell is blank, and a ${kind.kind} needs it`,
  mend:
    field.quantity === 'word'
      ? `Write one of: ${field.words.join(', ')}.`
      : 'Fill it in; where blank means the same as above, say so.',
});

/**
 * Rows that speak of one thing made one: a run's depths stand in the row of each of its pieces. Where they differ,
 * the first counts and the other is named.
 */
const once = (
  rows: readonly LoggedRow[],
  read: ReadSheets,
  note: (one: Unread) => void,
): readonly LoggedRow[] => {
  const first = new Map<string, number>();
  const kept: LoggedRow[] = [];
  for (const row of rows) {
    const keys = keyFields(row.kind);
    if (keys.length === 0) {
      kept.push(row);
      continue;
    }
    const key = [row.kind.kind, ...keys.map(({ name }) => row.readings[name] ?? '')].join('|').toLowerCase();
    const at = first.get(key);
    if (at === undefined) {
      first.set(key, kept.length);
      kept.push(row);
      continue;
    }
    const before = kept[at]!;
    const differs = Object.keys(row.readings).find(
      (name) => Object.hasOwn(before.readings, name) && before.readings[name] !== row.readings[name],
    );
    if (differs === undefined) {
      kept[at] = { ...before, readings: { ...row.readings, ...before.readings } };
      continue;
    }
    const table = read.tables[row.table]!;
    note({
      place: { sheet: table.sheet, row: row.row, column: null },
      what: `${row.kind.kind} ${keys.map(({ name }) => row.readings[name]).join('.')} is there already, in ${cellPlaceInWords({ sheet: read.tables[before.table]!.sheet, row: before.row, column: null })}, with another ${differs} (${before.readings[differs]}, here ${row.readings[differs]})`,
      mend: 'Renumber one of the two, or make them agree.',
    });
  }
  return kept;
};
