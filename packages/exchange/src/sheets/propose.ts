import { type Field, type Kind, kindText, sayEnglish } from '@firnbook/campaign';
import { dateEvidence, isDateLike } from './dates.ts';
import { canFill, isMeasure, keyFields, looksLike, saying, unitOf } from './fields.ts';
import { type ImportMapping, leftOut, type Source, type TableMapping, type ThingMapping } from './mapping.ts';
import { type RememberedMapping, recalled } from './remember.ts';
import { type ReadSheets, type SheetTable, tableName } from './tables.ts';
import { dayWords, headingsOf, holeWords, isNamedAfter, timeWords, wordMeant } from './trade-words.ts';

export interface Proposal {
  readonly mapping: ImportMapping;
  /** What was assumed, for the person who confirms. */
  readonly notes: readonly string[];
  /** Tables whose layout was confirmed once before. */
  readonly remembered: readonly number[];
}

/** Kinds that the book makes itself, or that are begun by hand. */
const notFromTables = new Set([
  'campaign',
  'device',
  'hole',
  'import',
  'photograph',
  'settings',
  'depth version',
]);

/** Whether rows of a table can be things of this kind. */
export const isImportable = ({ kind }: Kind): boolean => !notFromTables.has(kind);

/**
 * Proposes what the columns of each table mean: as confirmed before where the layout is known, else by their
 * headings, what stands in them, and the name of the sheet. Hidden sheets are left out unless `sheet` names them.
 *
 * @param kinds the campaign's table of kinds
 * @param sheet name of the only sheet that is wanted
 */
export const proposeMapping = (
  read: ReadSheets,
  kinds: readonly Kind[],
  remembered: readonly RememberedMapping[] = [],
  sheet: string | null = null,
): Proposal => {
  const notes: string[] = [];
  const known: number[] = [];
  let offset: string | null = null;
  const importable = kinds.filter(isImportable);
  const tables = read.tables.map((table, i): TableMapping => {
    const isWanted = sheet === null ? !table.isHidden : table.sheet?.toLowerCase() === sheet.toLowerCase();
    if (!isWanted) {
      if (table.isHidden && sheet === null)
        notes.push(`Sheet ${table.sheet} is hidden: it is left out unless you name it.`);
      return leftOut;
    }
    const before = recalled(table, remembered);
    if (before !== null) {
      known.push(i);
      offset ??= before.offset;
      return before.mapping;
    }
    return proposeTable(table, importable, tableName(table, read.tables), notes);
  });
  return { mapping: { tables, offset, areAllMeant: false, givenDay: null }, notes, remembered: known };
};

interface Match {
  readonly kind: Kind;
  readonly thing: ThingMapping;
  readonly score: number;
}

const proposeTable = (
  table: SheetTable,
  kinds: readonly Kind[],
  name: string,
  notes: string[],
): TableMapping => {
  const when = whenColumns(table);
  const title = [table.sheet ?? '', ...table.title].join(' ');
  const matches = kinds
    .map((kind) => match(table, kind, when.taken, title))
    .filter((one) => one !== null)
    .sort((a, b) => b.score - a.score);
  const [best] = matches;
  if (best === undefined) return leftOut;
  const things = [best.thing];
  const parent = parentOf(table, best, kinds, when.taken);
  if (parent !== null) things.unshift(parent);
  for (const thing of things) {
    const kind = kinds.find((one) => one.kind === thing.kind)!;
    for (const [field, source] of Object.entries(thing.fields)) {
      const called = sayEnglish(kindText(kind.kind));
      if (source.from === 'order')
        notes.push(`${name}: no column numbers the ${called}; they are counted in the order of the rows.`);
      if (source.from === 'text')
        notes.push(
          `${name}: no column gives the ${field} of a ${called}; "${source.text}" is taken for every row.`,
        );
    }
  }
  const columns = assumedUnits(table, things, kinds, name, notes);
  return { things, columns, day: when.day, time: when.time, hole: when.hole };
};

/** Units that a heading does not name and the figures give away. */
const assumedUnits = (
  table: SheetTable,
  things: readonly ThingMapping[],
  kinds: readonly Kind[],
  name: string,
  notes: string[],
): TableMapping['columns'] => {
  const columns: Record<number, { unit: string }> = {};
  for (const thing of things) {
    const kind = kinds.find((one) => one.kind === thing.kind)!;
    for (const [fieldName, source] of Object.entries(thing.fields)) {
      const field = kind.fields.find((one) => one.name === fieldName);
      if (source.from !== 'column' || field === undefined || !isMeasure(field)) continue;
      const found = unitOf(kind, field, table, source.column);
      if (found.is !== 'usual') continue;
      columns[source.column] = { unit: found.unit };
      notes.push(
        `${name}: the heading "${table.columns[source.column]!.text}" names no unit; ${found.unit} is taken, in which its figures are usual.`,
      );
    }
  }
  return columns;
};

const whenColumns = (table: SheetTable) => {
  const find = (words: readonly string[], isRight: (index: number) => boolean): number | null => {
    for (const word of words) {
      const index = table.columns.findIndex((column, i) => column.words === word && isRight(i));
      if (index >= 0) return index;
    }
    return null;
  };
  const holdsDates = (index: number): boolean => {
    const cells = saying(table, index);
    return cells.length > 0 && dateEvidence(cells).dates * 2 >= cells.length;
  };
  let day = find(dayWords, holdsDates);
  const time = find(timeWords, (index) => index !== day && holdsDates(index));
  // a column called "time" that gives whole moments
  if (day === null && time !== null && saying(table, time).some((cell) => isDateLike(cell))) day = time;
  const hole = find(holeWords, (index) => saying(table, index).length > 0);
  const taken = new Set([day, hole].filter((index) => index !== null));
  if (time !== null) taken.add(time);
  return { day, time: time === day ? null : time, hole, taken };
};

/** What a kind makes of a table; null where something that it needs is not there. */
const match = (table: SheetTable, kind: Kind, taken: ReadonlySet<number>, title: string): Match | null => {
  const fields: Record<string, Source> = {};
  const used = new Set(taken);
  let score = 0;
  for (const field of kind.fields) {
    const index = columnFor(table, kind, field, used);
    if (index === null) continue;
    fields[field.name] = { from: 'column', column: index };
    used.add(index);
    score += field.required ? 1.5 : 1;
  }
  const found = Object.keys(fields).length;
  const isNamed = isNamedAfter(kind, title);
  const keys = keyFields(kind);
  for (const field of kind.fields) {
    if (!field.required || Object.hasOwn(fields, field.name)) continue;
    const source = stopgap(kind, field, keys);
    if (source === null || found < 2) return null;
    fields[field.name] = source;
    score -= 0.5;
  }
  const saysMore = Object.keys(fields).some((name) => !keys.some((key) => key.name === name));
  if (!saysMore || found === 0 || (found < 2 && !isNamed)) return null;
  return { kind, thing: { kind: kind.kind, fields }, score: score + (isNamed ? 1 : 0) };
};

/** What stands in for a column that is not there: the order of the rows, or the word that claims nothing. */
const stopgap = (kind: Kind, field: Field, keys: readonly Field[]): Source | null => {
  if (field.quantity === 'count' && keys.length > 1 && kind.kind !== 'run') return { from: 'order' };
  if (field.quantity === 'word' && field.words.includes('unsure')) return { from: 'text', text: 'unsure' };
  return null;
};

const columnFor = (table: SheetTable, kind: Kind, field: Field, used: ReadonlySet<number>): number | null => {
  if (!canFill(field)) return null;
  const meant = (text: string) => (field.quantity === 'word' ? wordMeant(text, field.words) : text);
  for (const words of headingsOf(kind, field))
    for (let i = 0; i < table.columns.length; i++)
      if (table.columns[i]!.words === words && !used.has(i) && looksLike(kind, field, table, i, meant))
        return i;
  return null;
};

/**
 * A table of pieces often carries its run's depths in every row: then it logs the runs too. Only columns that the
 * pieces leave over count, and only where one says more of a run than its number.
 */
const parentOf = (
  table: SheetTable,
  best: Match,
  kinds: readonly Kind[],
  taken: ReadonlySet<number>,
): ThingMapping | null => {
  const link = best.kind.fields.find(
    ({ quantity, required, name }) =>
      quantity === 'thing' && required && Object.hasOwn(best.thing.fields, name),
  );
  if (link?.quantity !== 'thing' || typeof link.of !== 'string' || keyFields(best.kind).length === 0)
    return null;
  const parent = kinds.find(({ kind }) => kind === link.of);
  const source = best.thing.fields[link.name];
  if (parent === undefined || source?.from !== 'column') return null;
  const keys = keyFields(parent);
  if (keys.length !== 1) return null;
  const used = new Set(taken);
  for (const one of Object.values(best.thing.fields)) if (one.from === 'column') used.add(one.column);
  const fields: Record<string, Source> = { [keys[0]!.name]: source };
  for (const field of parent.fields) {
    if (field === keys[0] || (field.quantity === 'text' && field.name === 'note')) continue;
    const index = columnFor(table, parent, field, used);
    if (index === null) continue;
    fields[field.name] = { from: 'column', column: index };
    used.add(index);
  }
  const isWhole = parent.fields.every(({ name, required }) => !required || Object.hasOwn(fields, name));
  return isWhole && Object.keys(fields).length > 1 ? { kind: parent.kind, fields } : null;
};
