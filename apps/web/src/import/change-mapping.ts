import { type Field, type Kind, units } from '@firnbook/campaign';
import type { ImportMapping, Source, TableMapping } from '@firnbook/exchange/sheets';

/** What a column may be used for: a field of a thing, or when and where. */
export type Use =
  | { readonly of: string; readonly field: string }
  | { readonly of: 'row'; readonly field: 'day' | 'time' | 'hole' };

export const keyOfUse = ({ of, field }: Use): string => `${of}|${field}`;

export function readUse(key: string): Use | null {
  const [of, field] = key.split('|');
  return of === undefined || field === undefined || field === '' ? null : ({ of, field } as Use);
}

const rowUses = ['day', 'time', 'hole'] as const;

/** Whether a kind's field hangs it on another kind of the same row, and so says what that one's number says. */
const linkedTo = (field: Field, mapped: TableMapping): string | null =>
  field.quantity === 'thing' && field.required && typeof field.of === 'string'
    ? (mapped.things.find(({ kind }) => kind === field.of)?.kind ?? null)
    : null;

const kindCalled = (kinds: readonly Kind[], word: string): Kind | undefined =>
  kinds.find(({ kind }) => kind === word);

/** What a person may say of a column, by kind; bytes of a file stand in no cell. */
export const fieldsFor = (
  mapped: TableMapping,
  kinds: readonly Kind[],
): readonly { readonly kind: Kind; readonly fields: readonly Field[] }[] =>
  mapped.things.flatMap(({ kind: word }) => {
    const kind = kindCalled(kinds, word);
    if (kind === undefined) return [];
    const fields = kind.fields.filter(
      (field) => field.quantity !== 'attachment' && linkedTo(field, mapped) === null,
    );
    return [{ kind, fields }];
  });

/** What a column is used for now. */
export function usesOf(mapped: TableMapping, kinds: readonly Kind[], column: number): readonly Use[] {
  const things = mapped.things.flatMap(({ kind: word, fields }): readonly Use[] =>
    Object.entries(fields).flatMap(([name, source]): readonly Use[] => {
      if (source.from !== 'column' || source.column !== column) return [];
      const field = kindCalled(kinds, word)?.fields.find((one) => one.name === name);
      return field === undefined || linkedTo(field, mapped) !== null ? [] : [{ of: word, field: name }];
    }),
  );
  return [
    ...things,
    ...rowUses.filter((field) => mapped[field] === column).map((field): Use => ({ of: 'row', field })),
  ];
}

/** The column means this and nothing else; null: it is not used. Another column that meant it is not used any more. */
export function withUse(
  mapped: TableMapping,
  kinds: readonly Kind[],
  column: number,
  use: Use | null,
): TableMapping {
  const kept = (field: 'day' | 'time' | 'hole') => (mapped[field] === column ? null : mapped[field]);
  const free: TableMapping = {
    ...mapped,
    day: kept('day'),
    time: kept('time'),
    hole: kept('hole'),
    things: mapped.things.map((thing) => ({
      ...thing,
      fields: without(thing.fields, (source) => source.from === 'column' && source.column === column),
    })),
  };
  if (use === null) return free;
  if (use.of === 'row') return { ...free, [use.field]: column };
  return withSource(free, kinds, use, { from: 'column', column });
}

/** Where a field's readings come from; whatever hangs on that number takes it too. Null: from nowhere. */
export function withSource(
  mapped: TableMapping,
  kinds: readonly Kind[],
  use: Use,
  source: Source | null,
): TableMapping {
  const isNumber = use.field === 'number';
  return {
    ...mapped,
    things: mapped.things.map((thing) => {
      const kind = kindCalled(kinds, thing.kind);
      const own = thing.kind === use.of ? [use.field] : [];
      const linked = isNumber
        ? (kind?.fields ?? []).filter((field) => linkedTo(field, mapped) === use.of).map(({ name }) => name)
        : [];
      const names = [...own, ...linked];
      return {
        ...thing,
        fields: {
          ...without(thing.fields, (_, field) => names.includes(field)),
          ...(source !== null && Object.fromEntries(names.map((name) => [name, source]))),
        },
      };
    }),
  };
}

const without = (
  fields: Readonly<Record<string, Source>>,
  goes: (source: Source, field: string) => boolean,
): Readonly<Record<string, Source>> =>
  Object.fromEntries(Object.entries(fields).filter(([field, source]) => !goes(source, field)));

/** Fields that no column fills: what stands in for each, and what is needed and still from nowhere. */
export const unfilled = (
  mapped: TableMapping,
  kinds: readonly Kind[],
): readonly { readonly kind: Kind; readonly field: Field; readonly source: Source | null }[] =>
  fieldsFor(mapped, kinds).flatMap(({ kind, fields }) => {
    const own = mapped.things.find((thing) => thing.kind === kind.kind)?.fields ?? {};
    return fields.flatMap((field) => {
      const source = Object.hasOwn(own, field.name) ? own[field.name]! : null;
      if (source?.from === 'column' || (source === null && !field.required)) return [];
      return [{ kind, field, source }];
    });
  });

/** Units that a column's figures may be in, the field's own first; empty for what has none. */
export function unitsFor(mapped: TableMapping, kinds: readonly Kind[], column: number): readonly string[] {
  for (const { of, field: name } of usesOf(mapped, kinds, column)) {
    const field = kindCalled(kinds, of)?.fields.find((one) => one.name === name);
    if (field === undefined || !('unit' in field)) continue;
    const dimension = field.quantity === 'lengths' ? 'length' : field.quantity;
    return [...new Set([field.unit, ...Object.keys(units[dimension])])];
  }
  return [];
}

/** A table's part of the mapping changed. */
export const withTable = (
  mapping: ImportMapping,
  index: number,
  change: (table: TableMapping) => TableMapping,
): ImportMapping => ({
  ...mapping,
  tables: mapping.tables.map((table, i) => (i === index ? change(table) : table)),
});

/** What is known of one column changed; undefined is what its cells say. */
export function withColumn(
  mapped: TableMapping,
  column: number,
  reading: { readonly unit?: string | undefined; readonly blanks?: 'as above' | undefined },
): TableMapping {
  const known = { ...mapped.columns[column], ...reading };
  const said = Object.fromEntries(Object.entries(known).filter(([, value]) => value !== undefined));
  return { ...mapped, columns: { ...mapped.columns, [column]: said } };
}
