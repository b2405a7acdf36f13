import type { Kind } from '@firnbook/campaign';
import { readHeading } from '../heading.ts';
import { type CheckedFile, checkIntervalTable } from '../interval-file.ts';
import type { Table } from '../table.ts';
import { TableError } from '../trouble.ts';
import { isBlank, textOf } from './cells.ts';
import { isMeasure, markOf, unitOf } from './fields.ts';
import type { Source, TableMapping } from './mapping.ts';
import { plainNumeral } from './numerals.ts';
import type { SheetTable } from './tables.ts';

/**
 * Whether the depth intervals and lengths of a table close: every gap, overlap, wrong length. A table that carries
 * its runs' depths in the rows of the pieces is checked by its runs, each once. Rows keep their numbers of the file.
 *
 * @returns null where the table has no intervals to check
 */
export const tableClosure = (
  table: SheetTable,
  mapped: TableMapping,
  kinds: readonly Kind[],
  file: string,
): CheckedFile | null => {
  const run = mapped.things.find(({ kind }) => kind === 'run');
  const columnOf = (field: string): number | null => indexOf(run?.fields[field]);
  const [key, from, to] = [columnOf('number'), columnOf('from'), columnOf('to')];
  const isCarried = mapped.things.length > 1 && run !== undefined;
  const indices = isCarried
    ? [key, from, to].filter((index) => index !== null)
    : table.columns.map((_, i) => i);
  const seen = new Set<string>();
  const rows = table.rows.filter((row) => {
    if (!isCarried || key === null) return true;
    const text = textOf(row.cells[key]!);
    if (text === '' || seen.has(text)) return false;
    seen.add(text);
    return true;
  });
  const units = table.columns.map((_, i) => unitFor(table, mapped, kinds, i));
  const asTable: Table = {
    file,
    encoding: 'UTF-8',
    delimiter: ',',
    headings: indices.map((i) =>
      readHeading(units[i] === null ? table.columns[i]!.text : `${table.columns[i]!.words} (${units[i]})`),
    ),
    rows: rows.map((row) => ({
      line: row.row,
      cells: indices.map((i) => {
        const cell = row.cells[i]!;
        if (isBlank(cell)) return '';
        // a figure that cannot be read is named elsewhere; here it is not there
        return plainNumeral(cell, markFor(table, mapped, i)) ?? (units[i] === null ? textOf(cell) : '');
      }),
    })),
  };
  const at = (index: number): string => String(indices.indexOf(index) + 1);
  try {
    return checkIntervalTable(asTable, from !== null && to !== null ? { top: at(from), bottom: at(to) } : {});
  } catch (error) {
    if (error instanceof TableError) return null;
    throw error;
  }
};

const indexOf = (source: Source | undefined): number | null =>
  source?.from === 'column' ? source.column : null;

const markFor = (table: SheetTable, mapped: TableMapping, index: number) => {
  const decided = mapped.columns[index]?.mark ?? markOf(table, index);
  return decided === 'ask' ? null : decided;
};

/** The unit that a column's figures are in; null where it holds none that a field takes, or its heading names none. */
const unitFor = (
  table: SheetTable,
  mapped: TableMapping,
  kinds: readonly Kind[],
  index: number,
): string | null => {
  for (const thing of mapped.things) {
    const kind = kinds.find((one) => one.kind === thing.kind);
    const field = kind?.fields.find((one) => indexOf(thing.fields[one.name]) === index);
    if (kind === undefined || field === undefined || !isMeasure(field)) continue;
    const known = mapped.columns[index]?.unit;
    if (known !== undefined) return known;
    const found = unitOf(kind, field, table, index);
    return found.is === 'unclear' || found.unit === '' ? null : found.unit;
  }
  return table.columns[index]!.unit;
};
