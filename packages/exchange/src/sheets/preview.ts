import {
  type Command,
  type Context,
  createBook,
  type Doubt,
  findHole,
  type Kind,
  sayEnglish,
  type ThingView,
} from '@firnbook/campaign';
import type { Entry } from '@firnbook/journal';
import type { CheckedFile } from '../interval-file.ts';
import { cellPlaceInWords, type Unread } from './cells.ts';
import { compareWith, type Difference } from './compare.ts';
import { keyFields } from './fields.ts';
import type { ImportMapping } from './mapping.ts';
import { type Question, questionsOf } from './questions.ts';
import { type LoggedRow, rowsToLog } from './rows-to-log.ts';
import { openScratch } from './scratch.ts';
import { importedFrom } from './source.ts';
import { tableClosure } from './table-closure.ts';
import type { ReadSheets } from './tables.ts';

export type RowStatus =
  /** Not in the book: logged. */
  | 'new'
  /** In the book, and the file has readings more: added. */
  | 'more'
  /** In the book with the same readings, or with readings that were struck since: nothing. */
  | 'same'
  /** Came from an earlier version of this file and says something else now: corrected where a person says so. */
  | 'changed'
  /** Somebody else logged it, with other readings: left alone. */
  | 'differs'
  /** Withdrawn in the book: left alone. */
  | 'withdrawn'
  /** The book refuses it: left out, and named among the unread. */
  | 'refused';

export interface PreviewRow {
  readonly table: number;
  readonly row: number;
  readonly kind: string;
  /** Number in the file: "34", "34.2"; '' for kinds without. */
  readonly number: string;
  readonly status: RowStatus;
  readonly readings: Readonly<Record<string, string>>;
  readonly at: string;
  readonly differences: readonly Difference[];
  readonly doubts: readonly Doubt[];
  /** What will be written; null where nothing is. */
  readonly command: Command | null;
}

export interface Preview {
  readonly rows: readonly PreviewRow[];
  readonly unread: readonly Unread[];
  readonly questions: readonly Question[];
  readonly remarks: readonly string[];
  /** Per table that has depth intervals: whether they close. */
  readonly closures: readonly { readonly table: number; readonly checked: CheckedFile }[];
}

export interface ImportInput {
  readonly read: ReadSheets;
  readonly mapping: ImportMapping;
  readonly kinds: readonly Kind[];
  /** Everything that the campaign's journal holds here. */
  readonly entries: readonly Entry[];
  /** Id of the hole that the rows are logged into; null for tables of the campaign itself. */
  readonly hole: string | null;
  /** Id of the person who imports. */
  readonly by: string;
  /** Why rows of this file that changed are corrected; null: they are left. */
  readonly correct: string | null;
}

/**
 * What importing would do, row by row, with the campaign's own doubts about each, told one after the other as they
 * would be logged. Writes nothing. While a question is open, times are not what they will be and commandsOf gives none.
 */
export const previewImport = (input: ImportInput): Preview => {
  const { read, mapping, kinds, entries, correct } = input;
  const campaign = lookedAt(entries);
  const hole = input.hole === null ? null : (findHole(campaign, input.hole) ?? null);
  const questions = questionsOf(read, mapping, kinds);
  const said = rowsToLog(read, shownBy(mapping, questions), kinds, hole);
  const rows = inOrder(said.rows, kinds);
  const origins = importedFrom(entries, read.file);
  const find = compareWith(campaign, hole, rows, (thing) => isOwn(thing, origins));
  const scratch = openScratch(entries);
  let names = 0;
  const unread = [...readTrouble(read, mapping, said.unread), ...said.unread];
  const shown = rows.map((row): PreviewRow => {
    const found = find(row);
    const context: Context = { by: input.by, observedAt: row.at, newId: () => scratchId(++names) };
    const base = {
      table: row.table,
      row: row.row,
      kind: row.kind.kind,
      number: keyFields(row.kind)
        .map(({ name }) => row.readings[name])
        .join('.'),
      readings: row.readings,
      at: row.at,
      differences: found?.differences ?? [],
    };
    const status = statusOf(found, origins);
    const command = commandFor(status, row, found, hole?.id ?? null, correct);
    if (command === null) return { ...base, status, doubts: [], command };
    const decision = scratch.take(command, context);
    if (decision.ok) return { ...base, status, doubts: decision.doubts, command };
    for (const { what, mend } of decision.refusals)
      unread.push({
        place: { sheet: read.tables[row.table]!.sheet, row: row.row, column: null },
        what: sayEnglish(what).replace(/\.$/, ''),
        mend: sayEnglish(mend),
      });
    return { ...base, status: 'refused', doubts: [], command: null };
  });
  const closures = mapping.tables.flatMap((mapped, table) => {
    if (mapped.things.length === 0) return [];
    const checked = tableClosure(read.tables[table]!, mapped, kinds, read.file);
    return checked === null ? [] : [{ table, checked }];
  });
  return { rows: shown, unread, questions, remarks: remarksOf(said.rows, said.elsewhere, hole), closures };
};

/** What could not be read already as a cell, on sheets that are imported, unless its row is held back for it. */
const readTrouble = (
  read: ReadSheets,
  mapping: ImportMapping,
  named: readonly Unread[],
): readonly Unread[] => {
  const places = new Set(named.map(({ place }) => cellPlaceInWords({ ...place, header: '' })));
  const sheets = new Set(
    read.tables.filter((_, i) => mapping.tables[i]!.things.length > 0).map(({ sheet }) => sheet),
  );
  return read.unread.filter(({ place }) => sheets.has(place.sheet) && !places.has(cellPlaceInWords(place)));
};

/** So that rows can be looked at before clock and day are said: shown by UTC, on the first of January 1970. */
const shownBy = (mapping: ImportMapping, questions: readonly Question[]): ImportMapping => {
  const isOpen = (about: Question['about']) => questions.some((question) => question.about === about);
  return {
    ...mapping,
    ...(isOpen('offset') && { offset: 'Z' }),
    ...(isOpen('day') && { givenDay: '1970-01-01' }),
  };
};

const lookedAt = (entries: readonly Entry[]) => {
  const book = createBook();
  book.add(entries);
  return book.view();
};

/** Names for drafts that are never written. */
const scratchId = (count: number): string => `00000000-0000-7000-8000-${String(count).padStart(12, '0')}`;

const isOwn = (thing: ThingView, origins: ReadonlySet<string>): boolean =>
  [thing.id, ...(thing.absorbed ?? [])].some((id) => origins.has(id));

type Found = ReturnType<ReturnType<typeof compareWith>>;

const statusOf = (found: Found, origins: ReadonlySet<string>): RowStatus => {
  if (found === null) return 'new';
  if (found.thing.withdrawn !== null) return 'withdrawn';
  if (found.differences.length > 0) return isOwn(found.thing, origins) ? 'changed' : 'differs';
  return found.lacking.length > 0 ? 'more' : 'same';
};

const commandFor = (
  status: RowStatus,
  row: LoggedRow,
  found: Found,
  hole: string | null,
  correct: string | null,
): Command | null => {
  const only = (names: readonly string[]) =>
    Object.fromEntries(names.map((name) => [name, row.readings[name]!]));
  if (status === 'new')
    return {
      do: 'log',
      kind: row.kind.kind,
      ...(row.kind.under === 'hole' && hole !== null && { hole }),
      readings: row.readings,
    };
  if (found === null) return null;
  const { thing, lacking, differences } = found;
  if (status === 'more') return { do: 'add', thing: thing.id, readings: only(lacking) };
  if (status !== 'changed' || correct === null) return null;
  const changed = [...differences.map(({ field }) => field), ...lacking];
  return { do: 'correct', thing: thing.id, readings: only(changed), reason: correct };
};

/** Parents before what hangs on them, numbers upwards: as the work would have been logged. */
const inOrder = (rows: readonly LoggedRow[], kinds: readonly Kind[]): readonly LoggedRow[] => {
  const order = new Map(kinds.map(({ kind }, i) => [kind, i]));
  const numbers = (row: LoggedRow): readonly number[] =>
    keyFields(row.kind).map(({ name }) => Number(row.readings[name] ?? Number.NaN));
  return rows
    .map((row) => ({ row, at: order.get(row.kind.kind) ?? 0, numbers: numbers(row) }))
    .sort((a, b) => {
      if (a.at !== b.at) return a.at - b.at;
      for (let i = 0; i < a.numbers.length; i++) {
        const step = a.numbers[i]! - (b.numbers[i] ?? Number.NaN);
        if (step !== 0 && !Number.isNaN(step)) return step;
      }
      return 0;
    })
    .map(({ row }) => row);
};

const remarksOf = (
  rows: readonly LoggedRow[],
  elsewhere: number,
  hole: { readonly name: string } | null,
): readonly string[] => {
  const days = rows.filter(({ exact }) => exact === 'day').length;
  const stated = rows.filter(({ exact }) => exact === 'stated day').length;
  const many = (count: number) => `${count} ${count === 1 ? 'row' : 'rows'}`;
  return [
    ...(elsewhere === 0 || hole === null
      ? []
      : [`${many(elsewhere)} of other holes than ${hole.name} left out.`]),
    ...(days === 0 ? [] : [`${many(days)} give a day without a time: 12:00 is taken.`]),
    ...(stated === 0 ? [] : [`${many(stated)} give no day: the stated one is taken.`]),
  ];
};
