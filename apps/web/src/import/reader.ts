import { kinds } from '@firnbook/campaign';
import { placeInWords, TableError } from '@firnbook/exchange';

import {
  columnLetter,
  commandsOf,
  decideImport,
  type ImportMapping,
  isImportable,
  limits,
  type Preview,
  type PreviewRow,
  previewImport,
  proposeMapping,
  type ReadSheets,
  readOffset,
  readSheets,
  rememberedMappings,
  type SheetTable,
  type TableMapping,
  type Unread,
  withTable,
} from '@firnbook/exchange/sheets';
import { newId } from '@firnbook/journal';
import type {
  Answer,
  Answers,
  Decided,
  Look,
  ShownClosure,
  ShownTable,
  ShownUnread,
  Some,
  Task,
  Trouble,
  Wish,
} from './task.ts';

/** Lines of each list that a person is shown; the rest is counted. Common practice, no source. */
const most = 30;
const firstRows = 6;
const samples = 3;

/** Works on one file: read once, looked at as often as its mapping changes. Total: trouble is an answer. */
export interface Reader {
  answer(task: Task): Promise<Answer>;
}

/** @param source clock and chance, for the ids of what is decided */
export function createReader(source: Parameters<typeof newId>[0]): Reader {
  let read: ReadSheets | null = null;
  /** What was looked at last is not worked out again when it is confirmed. */
  let last: { readonly asked: string; readonly preview: Preview } | null = null;

  const work = async (task: Task): Promise<Answers[Task['do']] | Trouble> => {
    if (task.do === 'read') {
      if (task.file.size > limits.bytes) return { is: 'too large', megabytes: limits.bytes / 2 ** 20 };
      last = null;
      read = readSheets(new Uint8Array(await task.file.arrayBuffer()), task.file.name);
      return read.tables.map(shownTable);
    }
    if (read === null) return { is: 'broken' };
    const { mapping, remembered } = mappingFor(read, task);
    const { entries, hole, by, correct } = task;
    // A journal only grows: of the same length it says the same.
    const asked = JSON.stringify([entries.length, mapping, hole, by, correct]);
    if (last?.asked !== asked)
      last = { asked, preview: previewImport({ read, mapping, kinds, entries, hole, by, correct }) };
    const { preview } = last;
    if (task.do === 'look') return lookAt(read, mapping, remembered, preview);
    return decided(read, mapping, preview, task, source);
  };

  return {
    async answer(task) {
      try {
        const done = await work(task);
        return 'is' in done ? { ok: false, trouble: done } : { ok: true, answer: done };
      } catch (error) {
        return { ok: false, trouble: troubleOf(error) };
      }
    },
  };
}

function troubleOf(error: unknown): Trouble {
  if (error instanceof TableError)
    return { is: 'said', where: placeInWords(error.place), what: error.what, mend: error.mend };
  return { is: 'broken' };
}

const shownTable = (table: SheetTable): ShownTable => ({
  sheet: table.sheet,
  isHidden: table.isHidden,
  headerRow: table.headerRow,
  firstColumn: columnLetter(table.columns[0]?.column ?? 1),
  rows: table.rows.length,
  columns: table.columns.map(({ text, unit, column }, index) => {
    const cells = table.rows.map((row) => row.cells[index] ?? '');
    const texts = cells.map((cell) => (typeof cell === 'string' ? cell : cell.text));
    return {
      text,
      unit,
      place: table.sheet === null ? String(column) : columnLetter(column),
      samples: texts.filter((one) => one !== '').slice(0, samples),
      hasBlanks: texts.some((one) => one === '') && texts.some((one) => one !== ''),
    };
  }),
});

function mappingFor(
  read: ReadSheets,
  { mapping, take, entries }: Wish,
): { readonly mapping: ImportMapping; readonly remembered: readonly number[] } {
  if (mapping === null) return proposeMapping(read, kinds, rememberedMappings(entries));
  const said = { ...mapping, offset: mapping.offset === null ? null : readOffset(mapping.offset) };
  if (take === undefined) return { mapping: said, remembered: [] };
  const { table, kind } = take;
  return { mapping: withTable(said, table, () => takenAs(read, table, kind)), remembered: [] };
}

/** Columns proposed for rows of one kind; where nothing fits, a person says every column. */
function takenAs(read: ReadSheets, table: number, word: string): TableMapping {
  const kind = kinds.filter((one) => one.kind === word && isImportable(one));
  const proposed = proposeMapping({ ...read, tables: [{ ...read.tables[table]!, isHidden: false }] }, kind);
  const [mapped] = proposed.mapping.tables;
  if (mapped !== undefined && mapped.things.length > 0) return mapped;
  return {
    things: kind.map((one) => ({ kind: one.kind, fields: {} })),
    columns: {},
    day: null,
    time: null,
    hole: null,
  };
}

const some = <T>(list: readonly T[]): Some<T> => ({ count: list.length, first: list.slice(0, most) });

function lookAt(
  read: ReadSheets,
  mapping: ImportMapping,
  remembered: readonly number[],
  { rows, unread, questions, remarks, closures }: Preview,
): Look {
  const counts = new Map<string, Look['counts'][number]>();
  for (const { kind, status } of rows) {
    const key = `${kind} ${status}`;
    counts.set(key, { kind, status, count: (counts.get(key)?.count ?? 0) + 1 });
  }
  const written = rows.filter(({ command }) => command !== null);
  const shownKinds = [...new Set(written.map(({ kind }) => kind))];
  const are = (status: PreviewRow['status']) => rows.filter((row) => row.status === status);
  return {
    mapping,
    remembered,
    questions,
    counts: [...counts.values()],
    writes: written.length,
    rows: shownKinds.flatMap((kind) => written.filter((row) => row.kind === kind).slice(0, firstRows)),
    known: are('same').length + are('withdrawn').length,
    unread: some(unread.map(shownUnread)),
    changed: some(are('changed')),
    differs: some(are('differs')),
    doubts: some(rows.filter(({ doubts }) => doubts.length > 0)),
    remarks: [...read.remarks, ...remarks],
    closures: closures.map(shownClosure),
  };
}

const shownUnread = ({ place, what, mend }: Unread): ShownUnread => {
  const { sheet, row, column, header = '' } = place;
  return {
    sheet,
    row,
    column: column === null ? null : sheet === null ? String(column) : columnLetter(column),
    header,
    what,
    mend,
  };
};

const shownClosure = ({ table, checked }: Preview['closures'][number]): ShownClosure => ({
  table,
  misfits: some(
    checked.closure.misfits.map(({ what, row, before, from, to, size }) => ({
      what,
      from,
      to,
      size,
      row: checked.lines[row]!,
      label: checked.labels[row] ?? '',
      against: before === null ? null : checked.lines[before]!,
    })),
  ),
});

function decided(
  read: ReadSheets,
  mapping: ImportMapping,
  preview: Preview,
  { entries, hole, by, sha256, observedAt }: Extract<Task, { readonly do: 'decide' }>,
  source: Parameters<typeof newId>[0],
): Decided {
  const commands = commandsOf(preview, read, mapping, sha256, hole);
  const drafts = decideImport(entries, commands, { by, observedAt, newId: () => newId(source) });
  if (!drafts.ok) return drafts;
  return { ok: true, drafts: drafts.drafts, rows: Math.max(0, commands.length - 1) };
}
