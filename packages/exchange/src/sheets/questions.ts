import type { Field, Kind } from '@firnbook/campaign';
import { type Cell, isBlank } from './cells.ts';
import { type DateOrder, dateEvidence, readDate } from './dates.ts';
import { evidenceOf, isMeasure, markOf, saying, unitOf } from './fields.ts';
import { type ImportMapping, leftOut, usedColumns, withReading } from './mapping.ts';
import { type Mark, tidyNumeral } from './numerals.ts';
import { cellsOf, type ReadSheets, type SheetTable, tableName } from './tables.ts';

/** Something that the file does not prove and a person has to say before anything is logged. */
export interface Question {
  readonly about: 'sheets' | 'dates' | 'mark' | 'unit' | 'offset' | 'day';
  /** Table and column (indices) it is about; null where it is about the file. */
  readonly table: number | null;
  readonly column: number | null;
  readonly what: string;
  /** Answers with the mapping that each leads to; empty where the answer is typed. */
  readonly choices: readonly { readonly label: string; readonly mapping: ImportMapping }[];
}

/** What is still open. A remembered mapping has answered before; what its columns prove otherwise is asked again. */
export const questionsOf = (
  read: ReadSheets,
  mapping: ImportMapping,
  kinds: readonly Kind[],
): readonly Question[] => {
  const open: Question[] = [];
  const sheets = sheetsQuestion(read, mapping);
  if (sheets !== null) open.push(sheets);
  let needsOffset = false;
  let needsDay = false;
  mapping.tables.forEach((mapped, i) => {
    const table = read.tables[i]!;
    if (mapped.things.length === 0) return;
    const name = tableName(table, read.tables);
    const timeFields = usedColumns(mapped).filter((column) => isFor(mapped.things, kinds, column, 'time'));
    const dated = [mapped.day, mapped.time, ...timeFields].filter((column) => column !== null);
    for (const column of new Set(dated)) {
      const question = datesQuestion(mapping, table, i, column, name);
      if (question !== null) open.push(question);
    }
    for (const column of usedColumns(mapped)) {
      const field = measureFor(mapped.things, kinds, column);
      if (field === null) continue;
      const mark = markQuestion(mapping, table, i, column, name);
      if (mark !== null) open.push(mark);
      const unit = unitQuestion(mapping, table, i, column, name, field);
      if (unit !== null) open.push(unit);
    }
    const { lacksOffset, lacksDay } = lacks(table, mapped.day, mapped.time);
    needsOffset ||= lacksOffset;
    needsDay ||= lacksDay;
  });
  if (needsDay && mapping.givenDay === null)
    open.push({
      about: 'day',
      table: null,
      column: null,
      what: 'Some rows give no day. On which day were they seen? (2026-06-14)',
      choices: [],
    });
  if (needsOffset && mapping.offset === null)
    open.push({
      about: 'offset',
      table: null,
      column: null,
      what: 'By which clock are the times? Give its offset from UTC, like +05:45 (or Z for UTC).',
      choices: [],
    });
  return open;
};

/** One hole's runs rarely stand on two sheets; two holes' do. */
const sheetsQuestion = (read: ReadSheets, mapping: ImportMapping): Question | null => {
  if (mapping.areAllMeant) return null;
  const byKind = new Map<string, Set<string>>();
  mapping.tables.forEach(({ things, hole }, i) => {
    const { sheet } = read.tables[i]!;
    if (sheet === null || hole !== null) return;
    for (const { kind } of things) byKind.set(kind, (byKind.get(kind) ?? new Set()).add(sheet));
  });
  const double = [...byKind].find(([, sheets]) => sheets.size > 1);
  if (double === undefined) return null;
  const [kind, names] = double;
  const only = (name: string): ImportMapping => ({
    ...mapping,
    tables: mapping.tables.map((table, i) => (read.tables[i]!.sheet === name ? table : leftOut)),
  });
  return {
    about: 'sheets',
    table: null,
    column: null,
    what: `Several sheets have rows of the kind ${kind}: ${[...names].join(', ')}. Which of them belong to this hole?`,
    choices: [
      ...[...names].map((name) => ({ label: name, mapping: only(name) })),
      { label: 'all of them', mapping: { ...mapping, areAllMeant: true } },
    ],
  };
};

type Things = ImportMapping['tables'][number]['things'];

const fieldsFor = (
  things: Things,
  kinds: readonly Kind[],
  column: number,
): readonly { kind: Kind; field: Field }[] =>
  things.flatMap(({ kind: word, fields }) => {
    const kind = kinds.find((one) => one.kind === word);
    if (kind === undefined) return [];
    return kind.fields
      .filter((field) => {
        const source = Object.hasOwn(fields, field.name) ? fields[field.name]! : null;
        return source?.from === 'column' && source.column === column;
      })
      .map((field) => ({ kind, field }));
  });

const isFor = (
  things: Things,
  kinds: readonly Kind[],
  column: number,
  quantity: Field['quantity'],
): boolean => fieldsFor(things, kinds, column).some(({ field }) => field.quantity === quantity);

const measureFor = (things: Things, kinds: readonly Kind[], column: number) =>
  fieldsFor(things, kinds, column).find(({ field }) => isMeasure(field)) ?? null;

const lacks = (table: SheetTable, day: number | null, time: number | null) => {
  let lacksDay = false;
  let lacksOffset = false;
  for (const row of table.rows) {
    const parts = [day, time].map((column) =>
      column === null ? null : readDate(row.cells[column]!, 'day first'),
    );
    if (parts.every((part) => (part?.day ?? null) === null) && !hasUnreadDay(row.cells, day)) lacksDay = true;
    if (parts.every((part) => (part?.offset ?? null) === null)) lacksOffset = true;
  }
  return { lacksDay, lacksOffset };
};

/** A date in another order than tried here, or one that cannot be read, is no missing day. */
const hasUnreadDay = (cells: readonly Cell[], day: number | null): boolean =>
  day !== null && !isBlank(cells[day]);

const columnName = (table: SheetTable, column: number): string => `"${table.columns[column]!.text}"`;

const orderWords: Readonly<Record<DateOrder, string>> = {
  'day first': 'day, month, year',
  'month first': 'month, day, year',
  'year first': 'year, month, day',
};

const datesQuestion = (
  mapping: ImportMapping,
  table: SheetTable,
  index: number,
  column: number,
  name: string,
): Question | null => {
  if (mapping.tables[index]!.columns[column]?.dates !== undefined) return null;
  const evidence = dateEvidence(cellsOf(table, column));
  const isProved = evidence.orders.length > 0 && evidence.example === null;
  if (isProved || evidence.dates === 0) return null;
  const orders: readonly DateOrder[] =
    evidence.orders.length > 0 ? evidence.orders : ['day first', 'month first'];
  const hint =
    evidence.running.length === 1 && evidence.orders.length > 1
      ? ` Read as ${orderWords[evidence.running[0]!]}, the days never run backwards.`
      : '';
  const why =
    evidence.orders.length > 0
      ? `"${evidence.example}" can be read in ${orders.length} ways, and no date of the column tells which.`
      : 'its dates contradict each other; those of the other order will not be read.';
  return {
    about: 'dates',
    table: index,
    column,
    what: `${name}, column ${columnName(table, column)}: ${why}${hint} Which order is it?`,
    choices: orders.map((dates) => ({
      label: orderWords[dates],
      mapping: withReading(mapping, index, column, { dates }),
    })),
  };
};

const markQuestion = (
  mapping: ImportMapping,
  table: SheetTable,
  index: number,
  column: number,
  name: string,
): Question | null => {
  if (mapping.tables[index]!.columns[column]?.mark !== undefined || markOf(table, column) !== 'ask')
    return null;
  const { example } = evidenceOf(table)[column]!;
  const shown = (mark: Mark): string => {
    const text = tidyNumeral(example ?? '');
    return text.replace(mark === ',' ? /[.' ]/g : /[,' ]/g, '');
  };
  return {
    about: 'mark',
    table: index,
    column,
    what: `${name}, column ${columnName(table, column)}: is "${example}" ${shown(',')} (comma for decimals) or ${shown('.')} (point for decimals)?`,
    choices: ([',', '.'] as const).map((mark) => ({
      label: mark === ',' ? 'comma for decimals' : 'point for decimals',
      mapping: withReading(mapping, index, column, { mark }),
    })),
  };
};

const unitQuestion = (
  mapping: ImportMapping,
  table: SheetTable,
  index: number,
  column: number,
  name: string,
  { kind, field }: { readonly kind: Kind; readonly field: Field },
): Question | null => {
  if (mapping.tables[index]!.columns[column]?.unit !== undefined || !isMeasure(field)) return null;
  if (saying(table, column).length === 0) return null;
  const found = unitOf(kind, field, table, column);
  if (found.is !== 'unclear') return null;
  const { unit } = table.columns[column]!;
  return {
    about: 'unit',
    table: index,
    column,
    what:
      unit === null
        ? `${name}, column ${columnName(table, column)}: the heading names no unit. Which is it?`
        : `${name}, column ${columnName(table, column)}: "${unit}" is no unit of this reading. Which is meant?`,
    choices: found.units.map((one) => ({
      label: one,
      mapping: withReading(mapping, index, column, { unit: one }),
    })),
  };
};
