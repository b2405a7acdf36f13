import { type Cell, isBlank, textOf } from './cells.ts';
import { type DateOrder, type ReadDate, readDate } from './dates.ts';
import { orderOf } from './fields.ts';
import type { ImportMapping, TableMapping } from './mapping.ts';
import { saysNothing } from './numerals.ts';
import type { SheetRow, SheetTable } from './tables.ts';

/** Time of day for rows that give a day alone. */
const NOON = '12:00:00';

export type When =
  /** ISO 8601 with offset, and how much of it the file says. */
  | { readonly ok: true; readonly at: string; readonly exact: 'moment' | 'day' | 'stated day' }
  | { readonly ok: false; readonly column: number | null; readonly what: string; readonly mend: string };

const isOffset = /^(?:Z|[+-](?:0\d|1[0-4]):[0-5]\d)$/;

/** "+5:45", "UTC+1", "Z" as "+05:45", "+01:00", "Z"; null for what is no offset. */
export const readOffset = (text: string): string | null => {
  const plain = text
    .trim()
    .replace(/\u2212/g, '-')
    .replace(/^(?:utc|gmt)\s*(?=[+-]|$)/i, '');
  if (/^z?$/i.test(plain)) return text.trim() === '' ? null : 'Z';
  const match = /^([+-])(\d{1,2})(?::?(\d{2}))?$/.exec(plain);
  if (match === null) return null;
  const offset = `${match[1]}${match[2]!.padStart(2, '0')}:${match[3] ?? '00'}`;
  return isOffset.test(offset) ? offset : null;
};

/**
 * When a row was seen: its day and time with the stated offset; a day alone counts at noon, a row without a day on
 * the stated day.
 */
export const whenOf = (
  row: SheetRow,
  sheet: SheetTable,
  table: TableMapping,
  mapping: ImportMapping,
): When => {
  const day = partOf(row, sheet, table, table.day);
  if (day === 'unreadable') return unreadable(row, table.day!, 'day');
  const time = partOf(row, sheet, table, table.time);
  if (time === 'unreadable') return unreadable(row, table.time!, 'time');
  const date = day?.day ?? time?.day ?? mapping.givenDay;
  if (date === null)
    return {
      ok: false,
      column: table.day,
      what: 'nothing says on which day this was seen',
      mend: 'Fill in the date, or say which day counts for rows without one.',
    };
  const clock = time?.time ?? day?.time ?? null;
  const offset = time?.offset ?? day?.offset ?? mapping.offset;
  if (offset === null)
    return {
      ok: false,
      column: table.day,
      what: 'nothing says which clock the times are of',
      mend: "State the clock's offset from UTC, for example +05:45.",
    };
  const hasDay = (day?.day ?? time?.day ?? null) !== null;
  return {
    ok: true,
    at: `${date}T${clock ?? NOON}${offset}`,
    exact: !hasDay ? 'stated day' : clock === null ? 'day' : 'moment',
  };
};

const partOf = (
  row: SheetRow,
  sheet: SheetTable,
  table: TableMapping,
  column: number | null,
): ReadDate | null | 'unreadable' => {
  if (column === null) return null;
  const cell: Cell = row.cells[column]!;
  if (isBlank(cell) || saysNothing(cell)) return null;
  const order: DateOrder | null = table.columns[column]?.dates ?? orderOf(sheet, column);
  return readDate(cell, order) ?? 'unreadable';
};

const unreadable = (row: SheetRow, column: number, what: 'day' | 'time'): When => ({
  ok: false,
  column,
  what: `"${textOf(row.cells[column]!).slice(0, 40)}" is no ${what}`,
  mend:
    what === 'day'
      ? 'Write it as 2026-06-14, or like the other dates of this column.'
      : 'Write it as 08:30 or 08:30:15.',
});
