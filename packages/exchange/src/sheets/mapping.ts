import type { DateOrder } from './dates.ts';
import type { Mark } from './numerals.ts';

/** Where a field's reading comes from. */
export type Source =
  /** A column of the table, by its index. */
  | { readonly from: 'column'; readonly column: number }
  /** The same words for every row. */
  | { readonly from: 'text'; readonly text: string }
  /** Counted in the order of the rows, from 1 within each run (or whatever the row hangs on). */
  | { readonly from: 'order' };

/** What a table's rows log: one thing of a kind each, or one for each new number of it. */
export interface ThingMapping {
  readonly kind: string;
  readonly fields: Readonly<Record<string, Source>>;
}

/** What has to be known to read a column, beyond what its cells prove. */
export interface ColumnReading {
  /** Where the heading names none, or another one. */
  readonly unit?: string;
  readonly mark?: Mark;
  readonly dates?: DateOrder;
  /** A blank cell means what the cell above it says. */
  readonly blanks?: 'as above';
}

export interface TableMapping {
  /** None: the table is left out. */
  readonly things: readonly ThingMapping[];
  /** By index of the column. */
  readonly columns: Readonly<Record<number, ColumnReading>>;
  /** Columns of the day, or day and time; of the time of day; of the hole that a row belongs to. */
  readonly day: number | null;
  readonly time: number | null;
  readonly hole: number | null;
}

/** How a file is read: proposed, then confirmed or changed by a person. */
export interface ImportMapping {
  /** One for each table of the file. */
  readonly tables: readonly TableMapping[];
  /** UTC offset that the file's times were said in, "+05:45"; null while nobody has said. */
  readonly offset: string | null;
  /** Whether tables of one kind on several sheets all belong to the hole: a person has said so. */
  readonly areAllMeant: boolean;
  /** Day for rows that give none, "2026-06-14". */
  readonly givenDay: string | null;
}

export const leftOut: TableMapping = { things: [], columns: {}, day: null, time: null, hole: null };

/** The mapping with one table's part changed. */
export const withTable = (
  mapping: ImportMapping,
  index: number,
  change: (table: TableMapping) => TableMapping,
): ImportMapping => ({
  ...mapping,
  tables: mapping.tables.map((table, i) => (i === index ? change(table) : table)),
});

/** The mapping with what is known of one column added. */
export const withReading = (
  mapping: ImportMapping,
  index: number,
  column: number,
  reading: ColumnReading,
): ImportMapping =>
  withTable(mapping, index, (table) => ({
    ...table,
    columns: { ...table.columns, [column]: { ...table.columns[column], ...reading } },
  }));

/** Columns that a table's mapping uses for a field. */
export const usedColumns = ({ things }: TableMapping): readonly number[] => [
  ...new Set(
    things.flatMap(({ fields }) =>
      Object.values(fields).flatMap((source) => (source.from === 'column' ? [source.column] : [])),
    ),
  ),
];
