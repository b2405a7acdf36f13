import type { Entry } from '@firnbook/journal';
import type { ColumnReading, Source, TableMapping, ThingMapping } from './mapping.ts';
import { headingKey, type SheetTable } from './tables.ts';

/** Raised whenever a table would be read otherwise than before: entries say by which one their rows were read. */
export const PARSER = 'sheets 1';

/** A confirmed mapping of one table, by headings: columns may stand in another order next time. */
export interface RememberedMapping {
  readonly sheet: string | null;
  readonly headings: readonly string[];
  readonly offset: string | null;
  readonly things: readonly {
    readonly kind: string;
    readonly fields: readonly (readonly [field: string, source: RememberedSource])[];
  }[];
  readonly columns: readonly (readonly [heading: string, reading: ColumnReading])[];
  readonly day: string | null;
  readonly time: string | null;
  readonly hole: string | null;
}

type RememberedSource =
  | { readonly from: 'column'; readonly column: string }
  | Exclude<Source, { readonly from: 'column' }>;

/** Headings of a table, told apart where two are alike: "note", "note #2". */
const headingsOf = (table: SheetTable): readonly string[] => {
  const seen = new Map<string, number>();
  return table.columns.map(({ text, unit }) => {
    const key = `${headingKey(text)}${unit === null ? '' : ` [${headingKey(unit)}]`}`;
    const count = (seen.get(key) ?? 0) + 1;
    seen.set(key, count);
    return count === 1 ? key : `${key} #${count}`;
  });
};

export const rememberTable = (
  table: SheetTable,
  mapping: TableMapping,
  offset: string | null,
): RememberedMapping => {
  const headings = headingsOf(table);
  const name = (index: number | null) => (index === null ? null : headings[index]!);
  return {
    sheet: table.sheet,
    headings,
    offset,
    things: mapping.things.map(({ kind, fields }) => ({
      kind,
      fields: Object.entries(fields).map(([field, source]) => [
        field,
        source.from === 'column' ? { from: 'column', column: headings[source.column]! } : source,
      ]),
    })),
    columns: Object.entries(mapping.columns).map(([index, reading]) => [headings[Number(index)]!, reading]),
    day: name(mapping.day),
    time: name(mapping.time),
    hole: name(mapping.hole),
  };
};

/**
 * The mapping that was confirmed for a table of this layout, the newest first. The layout is the same where every
 * heading is there, with its unit; further columns don't matter, nor does the order.
 */
export const recalled = (
  table: SheetTable,
  remembered: readonly RememberedMapping[],
): { readonly mapping: TableMapping; readonly offset: string | null } | null => {
  const headings = headingsOf(table);
  const index = (heading: string) => headings.indexOf(heading);
  for (const one of remembered.toReversed()) {
    if (one.headings.length === 0 || one.headings.some((heading) => index(heading) < 0)) continue;
    const place = (heading: string | null) => (heading === null ? null : index(heading));
    const things: readonly ThingMapping[] = one.things.map(({ kind, fields }) => ({
      kind,
      fields: Object.fromEntries(
        fields.map(([field, source]): [string, Source] => [
          field,
          source.from === 'column' ? { from: 'column', column: index(source.column) } : source,
        ]),
      ),
    }));
    return {
      offset: one.offset,
      mapping: {
        things,
        columns: Object.fromEntries(
          one.columns
            .filter(([heading]) => index(heading) >= 0)
            .map(([heading, reading]) => [index(heading), reading]),
        ),
        day: place(one.day),
        time: place(one.time),
        hole: place(one.hole),
      },
    };
  }
  return null;
};

/** Kind of the entry that an import leaves. */
const IMPORT_ENTRY = 'import.logged';

/** Mappings that people confirmed in earlier imports, oldest first. What cannot be read is passed over. */
export const rememberedMappings = (entries: readonly Entry[]): readonly RememberedMapping[] =>
  entries.flatMap(({ header, body }) => {
    const readings = header.kind === IMPORT_ENTRY ? body?.readings : null;
    const text =
      typeof readings === 'object' && readings !== null && !Array.isArray(readings)
        ? (readings as Readonly<Record<string, unknown>>).mapping
        : null;
    if (typeof text !== 'string') return [];
    try {
      const list: unknown = JSON.parse(text);
      return Array.isArray(list) ? list.filter(isRemembered) : [];
    } catch {
      return [];
    }
  });

const isList = (value: unknown): value is readonly unknown[] => Array.isArray(value);
const isTextOrNull = (value: unknown): boolean => value === null || typeof value === 'string';

/** Another device wrote it: nothing is taken on trust. */
const isRemembered = (value: unknown): value is RememberedMapping => {
  if (typeof value !== 'object' || value === null) return false;
  const one = value as Record<string, unknown>;
  return (
    [one.sheet, one.offset, one.day, one.time, one.hole].every(isTextOrNull) &&
    isList(one.headings) &&
    one.headings.every((heading) => typeof heading === 'string') &&
    isList(one.columns) &&
    one.columns.every((pair) => isList(pair) && typeof pair[0] === 'string' && isReading(pair[1])) &&
    isList(one.things) &&
    one.things.every(isThing)
  );
};

const isReading = (value: unknown): value is ColumnReading => {
  if (typeof value !== 'object' || value === null) return false;
  const { unit, mark, dates, blanks } = value as Record<string, unknown>;
  return (
    (unit === undefined || typeof unit === 'string') &&
    (mark === undefined || mark === '.' || mark === ',') &&
    (dates === undefined || dates === 'day first' || dates === 'month first' || dates === 'year first') &&
    (blanks === undefined || blanks === 'as above')
  );
};

const isThing = (value: unknown): boolean => {
  if (typeof value !== 'object' || value === null) return false;
  const { kind, fields } = value as Record<string, unknown>;
  return typeof kind === 'string' && isList(fields) && fields.every(isField);
};

const isField = (value: unknown): boolean => {
  if (!isList(value) || typeof value[0] !== 'string' || typeof value[1] !== 'object' || value[1] === null)
    return false;
  const { from, column, text } = value[1] as Record<string, unknown>;
  return (
    (from === 'column' && typeof column === 'string') ||
    (from === 'text' && typeof text === 'string') ||
    from === 'order'
  );
};
