import { sayEnglish } from '@firnbook/campaign';
import {
  cellPlaceInWords,
  type ImportMapping,
  type Preview,
  type PreviewRow,
  type ReadSheets,
  type Source,
  tableName,
} from '@firnbook/exchange/sheets';
import { misfitLines } from '../commands/closure.ts';

/** Lines of each list that are shown; the rest is counted. */
const most = 20;
const firstRows = 5;

/** Everything a person looks at before saying yes. */
export const previewInWords = (read: ReadSheets, mapping: ImportMapping, preview: Preview): string =>
  [
    ...mapping.tables.flatMap((_, i) => tableLines(read, mapping, i)),
    ...read.remarks,
    ...preview.remarks,
    ...rowLines(preview),
    ...listed(
      'Cannot be read',
      preview.unread,
      ({ place, what, mend }) => `${cellPlaceInWords(place)}: ${what}. ${mend}`,
    ),
    ...listed(
      'Changed since the last import (log them with --correct REASON)',
      preview.rows.filter(isLeft),
      (row) => differs(read, row),
    ),
    ...listed('In the book otherwise, from somebody else; left alone', preview.rows.filter(isOthers), (row) =>
      differs(read, row),
    ),
    ...listed(
      'Looks odd',
      preview.rows.flatMap((row) => doubtsOf(read, row)),
      (line) => line,
    ),
    ...closureLines(read, preview),
    ...preview.questions.map(({ what, choices }) => {
      const answers = choices.map(({ label }) => label).join(' / ');
      return `Has to be said first: ${what}${answers === '' ? '' : ` (${answers})`}`;
    }),
  ]
    .map((line) => `${line}\n`)
    .join('');

const isLeft = ({ status, command }: PreviewRow): boolean => status === 'changed' && command === null;
const isOthers = ({ status }: PreviewRow): boolean => status === 'differs';

const called = ({ kind, number }: PreviewRow): string => `${kind}${number === '' ? '' : ` ${number}`}`;

const at = (read: ReadSheets, row: PreviewRow): string =>
  cellPlaceInWords({ sheet: read.tables[row.table]!.sheet, row: row.row, column: null });

const differs = (read: ReadSheets, row: PreviewRow): string =>
  `${called(row)} (${at(read, row)}): ${row.differences.map(({ field, there, here }) => `${field} is ${there} in the book, ${here} in the file`).join('; ')}`;

const doubtsOf = (read: ReadSheets, row: PreviewRow): readonly string[] =>
  row.doubts.map(({ what }) => `${called(row)} (${at(read, row)}): ${sayEnglish(what)}`);

const namesUnit = (heading: string, unit: string): boolean =>
  [`(${unit}`, `[${unit}`, `/${unit}`, `/ ${unit}`].some((part) => heading.includes(part)) ||
  heading.endsWith(`_${unit}`);

const tableLines = (read: ReadSheets, mapping: ImportMapping, index: number): readonly string[] => {
  const table = read.tables[index]!;
  const mapped = mapping.tables[index]!;
  const name = tableName(table, read.tables);
  if (mapped.things.length === 0)
    return [`${name}: left out (${table.columns.map(({ text }) => text).join(', ')})`];
  const heading = (column: number | null): string => (column === null ? '' : table.columns[column]!.text);
  const used = new Set([mapped.day, mapped.time, mapped.hole]);
  const from = (source: Source): string => {
    if (source.from === 'order') return 'counted by rows';
    if (source.from === 'text') return `always "${source.text}"`;
    used.add(source.column);
    const { text, unit } = table.columns[source.column]!;
    const known = mapped.columns[source.column]?.unit ?? unit;
    return known === null || namesUnit(text, known) ? text : `${text} [${known}]`;
  };
  const lines = mapped.things.map(
    ({ kind, fields }) =>
      `  ${kind}: ${Object.entries(fields)
        .map(([field, source]) => `${field} = ${from(source)}`)
        .join(', ')}`,
  );
  const when = [heading(mapped.day), heading(mapped.time)].filter((text) => text !== '');
  const rest = table.columns.filter((_, i) => !used.has(i)).map(({ text }) => text || '(no heading)');
  return [
    `${name}: ${table.rows.length} rows, each one ${mapped.things.map(({ kind }) => kind).join(' and ')}`,
    ...lines,
    `  seen: ${when.length === 0 ? 'no column says when' : when.join(' and ')}${mapping.offset === null ? '' : `, clock ${mapping.offset}`}${mapping.givenDay === null ? '' : `, ${mapping.givenDay} where no day is given`}`,
    ...(mapped.hole === null ? [] : [`  hole: ${heading(mapped.hole)}`]),
    ...(rest.length === 0 ? [] : [`  not used: ${rest.join(', ')}`]),
  ];
};

const words: Readonly<Record<PreviewRow['status'], string>> = {
  new: 'new',
  more: 'with readings added',
  same: 'in the book already',
  changed: 'changed',
  differs: 'in the book otherwise',
  withdrawn: 'withdrawn in the book',
  refused: 'refused',
};

const rowLines = ({ rows, questions }: Preview): readonly string[] => {
  const counts = new Map<string, Map<PreviewRow['status'], number>>();
  for (const { kind, status } of rows) {
    const own = counts.get(kind) ?? new Map<PreviewRow['status'], number>();
    counts.set(kind, own.set(status, (own.get(status) ?? 0) + 1));
  }
  const written = rows.filter(({ command }) => command !== null);
  return [
    ...(written.length === 0 ? [] : ['First rows, as they will be logged:']),
    ...[...counts.keys()].flatMap((kind) =>
      written
        .filter((row) => row.kind === kind)
        .slice(0, firstRows)
        .map(
          (row) =>
            `  ${called(row)}${questions.length > 0 ? '' : `, ${row.at}`}: ${Object.entries(row.readings)
              .map(([field, text]) => `${field} ${text}`)
              .join(', ')}`,
        ),
    ),
    ...[...counts].map(
      ([kind, own]) =>
        `${kind}: ${[...own].map(([status, count]) => `${count} ${words[status]}`).join(', ')}`,
    ),
  ];
};

const listed = <T>(title: string, list: readonly T[], line: (one: T) => string): readonly string[] =>
  list.length === 0
    ? []
    : [
        `${title} (${list.length}):`,
        ...list.slice(0, most).map((one) => `  ${line(one)}`),
        ...(list.length > most ? [`  ... and ${list.length - most} more`] : []),
      ];

const closureLines = (read: ReadSheets, preview: Preview): readonly string[] =>
  preview.closures.flatMap(({ table, checked }) => {
    const name = tableName(read.tables[table]!, read.tables);
    const lines = misfitLines(checked);
    return lines.length === 0
      ? [`Depth intervals of ${name}: everything closes.`]
      : listed(`Depth intervals of ${name} do not close`, lines, (line) => line);
  });
