import type { CampaignView } from '@firnbook/campaign';
import { fieldOf, kindOf, kindText } from '@firnbook/campaign';
import type { PreviewRow } from '@firnbook/exchange/sheets';
import type { Look, ShownColumn, ShownMisfit, ShownTable, ShownUnread } from '../import/task.ts';
import { fieldWords, kindName } from '../texts/names.ts';
import { number, shortLength } from '../texts/numbers.ts';
import { capital, sayHere } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import { readingFace, readingWords } from './reading-text.tsx';

/** "Sheet Runs, from A3", "Table from line 1". */
export function tableName({ sheet, firstColumn, headerRow }: ShownTable): string {
  return sheet === null
    ? t('import.table.text', { line: headerRow })
    : t('import.table.sheet', { sheet, place: `${firstColumn}${headerRow}` });
}

export const columnName = ({ text, place }: ShownColumn): string =>
  text === '' ? t('import.column.one', { place }) : text;

/** "Run 34", "Piece 34.2". */
export const rowName = ({ kind, number: said }: Pick<PreviewRow, 'kind' | 'number'>): string =>
  said === '' ? kindName(kind) : `${kindName(kind)} ${said}`;

export interface ShownReading {
  readonly field: string;
  readonly face: string;
  readonly text: string;
}

/** "length", "87,5 cm"; a run that a piece hangs on stands in its number already. */
export const readingsOf = (row: PreviewRow, campaign: CampaignView): readonly ShownReading[] =>
  Object.entries(row.readings)
    .filter(([field]) => field !== 'number' && !(isThing(row.kind, field) && row.number.includes('.')))
    .map(([field, text]) => ({
      field: fieldWords(row.kind, field),
      face: readingFace(row.kind, field),
      text: wordsOf(row.kind, field, text, campaign),
    }));

const isThing = (kind: string, field: string): boolean => {
  const table = kindOf(kind);
  return table !== undefined && fieldOf(table, field)?.quantity === 'thing';
};

/** As it will be logged; things are called as the file calls them. */
export const wordsOf = (kind: string, field: string, text: string, campaign: CampaignView): string =>
  isThing(kind, field) ? text : readingWords(kind, field, text, campaign);

/** "Runs: 34 new, 2 in the book already", one for each kind. */
export function countLines({ counts }: Look): readonly string[] {
  return [...new Set(counts.map(({ kind }) => kind))].map((kind) => {
    const own = counts.filter((one) => one.kind === kind);
    const all = own.reduce((sum, { count }) => sum + count, 0);
    const said = own.map(({ status, count }) => t(`import.count.${status}`, { count }));
    return `${capital(sayHere(kindText(kind, all)))}: ${said.join(', ')}`;
  });
}

/** "Sheet Runs, row 12, column C (length)". */
export function placeWords({ sheet, row, column, header }: ShownUnread): string {
  const place =
    sheet === null
      ? column === null
        ? t('import.place.text.row', { row })
        : t('import.place.text.cell', { row, column })
      : column === null
        ? t('import.place.row', { sheet, row })
        : t('import.place.cell', { sheet, row, column });
  return header === '' ? place : t('import.place.header', { place, header });
}

/** Where a row of the file stands. */
export const rowPlace = (tables: readonly ShownTable[], { table, row }: PreviewRow): string =>
  placeWords({ sheet: tables[table]?.sheet ?? null, row, column: null, header: '', what: '', mend: '' });

/** What does not close, in words. */
export function misfitWords(misfit: ShownMisfit, table: ShownTable): string {
  const { what, row, label, against, from, to, size } = misfit;
  const metres = (value: number | null) => `${number(value ?? 0, 3)}\u00a0m`;
  const place = (at: number) =>
    t(table.sheet === null ? 'import.other.line' : 'import.other.row', { row: at });
  const amount = Math.abs(size ?? 0);
  const values = {
    where: label === '' ? capital(place(row)) : t('import.misfit.labelled', { label, place: place(row) }),
    size: amount < 1 ? shortLength(amount) : metres(amount),
    from: metres(from),
    to: metres(to),
    against: against === null ? '' : place(against),
  };
  if (what === 'length') return t((size ?? 0) < 0 ? 'import.misfit.short' : 'import.misfit.long', values);
  return t(`import.misfit.${what}`, values);
}
