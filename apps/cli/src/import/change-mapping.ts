import type { Kind } from '@firnbook/campaign';
import {
  columnLetter,
  type ImportMapping,
  type ReadSheets,
  type SheetTable,
  type Source,
  type TableMapping,
  withReading,
  withTable,
} from '@firnbook/exchange/sheets';
import { CommandError } from '../refusal.ts';

const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ');

/** A column by its heading, its words without the unit, its letter (workbooks), or its number. */
const columnCalled = (table: SheetTable, said: string): number => {
  const wanted = plain(said);
  const { columns, sheet } = table;
  const tests: readonly ((column: (typeof columns)[number]) => boolean)[] = [
    ({ text }) => plain(text) === wanted,
    ({ words }) => words === wanted,
    ({ column }) => sheet !== null && columnLetter(column).toLowerCase() === wanted,
    ({ column }) => String(column) === wanted,
  ];
  for (const test of tests) {
    const index = columns.findIndex(test);
    if (index >= 0) return index;
  }
  return -1;
};

const headings = (read: ReadSheets): string =>
  [...new Set(read.tables.flatMap(({ columns }) => columns.map(({ text }) => text)))].join(', ');

/** `--as piece`: what the rows of the tables that nothing was made of are. */
export const takeAs = (
  mapping: ImportMapping,
  read: ReadSheets,
  kinds: readonly Kind[],
  said: string,
  isWanted: (table: SheetTable) => boolean,
): ImportMapping => {
  const kind = kinds.find((one) => one.kind === said.toLowerCase());
  if (kind === undefined)
    throw new CommandError(
      `"${said}" is no kind of thing`,
      '--as',
      `Use one of: ${kinds.map((one) => one.kind).join(', ')}.`,
    );
  return read.tables.reduce((changed, table, i) => {
    if (!isWanted(table)) return changed;
    return withTable(changed, i, (before) =>
      before.things.some((thing) => thing.kind === kind.kind)
        ? before
        : { ...before, things: [{ kind: kind.kind, fields: {} }] },
    );
  }, mapping);
};

/**
 * `--map field=column`, `--map kind.field=column`; `field==text` for the same text in every row, `field=#` to count
 * rows, `field=` to leave a field out; `day=column`, `time=column`, `hole=column` for when and where.
 */
export const mapField = (
  mapping: ImportMapping,
  read: ReadSheets,
  kinds: readonly Kind[],
  said: string,
): ImportMapping => {
  const match = /^(?:([^.=]+)\.)?([^.=]+)=(.*)$/s.exec(said);
  if (match === null)
    throw new CommandError(
      `"${said}" maps nothing`,
      '--map',
      'Write field=column, like length="Length (cm)".',
    );
  const [, kindSaid, fieldSaid = '', from = ''] = match;
  let isTaken = false;
  const changed = mapping.tables.reduce((result, table, i) => {
    const source = sourceOf(read.tables[i]!, from);
    if (table.things.length === 0 || source === undefined) return result;
    const next = withField(table, kinds, kindSaid?.trim(), fieldSaid.trim(), source);
    if (next === null) return result;
    isTaken = true;
    return withTable(result, i, () => next);
  }, mapping);
  if (isTaken) return changed;
  throw new CommandError(
    `no table takes "${said}"`,
    '--map',
    `Columns: ${headings(read)}. Fields: ${fieldsOf(mapping, kinds)}. Where no table was recognised, say what its rows are with --as.`,
  );
};

const fieldsOf = (mapping: ImportMapping, kinds: readonly Kind[]): string =>
  [...new Set(mapping.tables.flatMap(({ things }) => things.map(({ kind }) => kind)))]
    .flatMap((word) => {
      const kind = kinds.find((one) => one.kind === word);
      return kind === undefined ? [] : kind.fields.map(({ name }) => `${word}.${name}`);
    })
    .join(', ') || 'none';

/** Undefined where the table has no such column; null to leave the field out. */
const sourceOf = (table: SheetTable, from: string): Source | null | undefined => {
  if (from.trim() === '') return null;
  if (from.trim() === '#') return { from: 'order' };
  if (from.startsWith('=')) return { from: 'text', text: from.slice(1) };
  const column = columnCalled(table, from);
  return column < 0 ? undefined : { from: 'column', column };
};

const places = ['day', 'time', 'hole'] as const;

/** Null where the table logs nothing with such a field. */
const withField = (
  table: TableMapping,
  kinds: readonly Kind[],
  kindSaid: string | undefined,
  field: string,
  source: Source | null,
): TableMapping | null => {
  const at = table.things.findLastIndex(({ kind: word }) => {
    if (kindSaid !== undefined && word !== kindSaid) return false;
    return kinds.find(({ kind }) => kind === word)?.fields.some(({ name }) => name === field) ?? false;
  });
  if (at < 0) {
    const place = places.find((one) => one === field && kindSaid === undefined);
    if (place === undefined || (source !== null && source.from !== 'column')) return null;
    return { ...table, [place]: source === null ? null : source.column };
  }
  const things = table.things.map((thing, i) => {
    if (i !== at) return thing;
    const { [field]: _, ...rest } = thing.fields;
    return { ...thing, fields: source === null ? rest : { ...rest, [field]: source } };
  });
  return { ...table, things };
};

const readings = {
  comma: { mark: ',' },
  point: { mark: '.' },
  'day-first': { dates: 'day first' },
  'month-first': { dates: 'month first' },
  'year-first': { dates: 'year first' },
  'as-above': { blanks: 'as above' },
} as const;

/** `--read column=word`: comma or point for decimals, the order of dates, blanks as above, or a unit. */
export const readColumn = (mapping: ImportMapping, read: ReadSheets, said: string): ImportMapping => {
  const at = said.lastIndexOf('=');
  const [name, word] = [said.slice(0, at), said.slice(at + 1).trim()];
  if (at < 1 || word === '')
    throw new CommandError(
      `"${said}" says nothing of a column`,
      '--read',
      `Write column=word; words: ${Object.keys(readings).join(', ')}, or a unit.`,
    );
  const reading = Object.hasOwn(readings, word) ? readings[word as keyof typeof readings] : { unit: word };
  let isTaken = false;
  const changed = mapping.tables.reduce((result, table, i) => {
    const column = columnCalled(read.tables[i]!, name);
    if (table.things.length === 0 || column < 0) return result;
    isTaken = true;
    return withReading(result, i, column, reading);
  }, mapping);
  if (isTaken) return changed;
  throw new CommandError(`there is no column "${name}"`, '--read', `Columns: ${headings(read)}.`);
};
