import type { Cell, Grid, GridRow, Merge, Unread } from './cells.ts';
import { dateOfSerial } from './excel-dates.ts';
import { limits, tooLarge } from './limits.ts';
import type { BookSheet, Workbook } from './xlsx-book.ts';
import { attribute, walkXml } from './xlsx-xml.ts';

/** Where "C12" is: column from 0, row from 1; null for what is no reference. */
const readReference = (text: string): { readonly column: number; readonly row: number } | null => {
  const match = /^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$/.exec(text);
  if (match === null) return null;
  let column = 0;
  for (const letter of match[1]!) column = column * 26 + letter.charCodeAt(0) - 64;
  return { column: column - 1, row: Number(match[2]) };
};

interface OpenCell {
  readonly type: string;
  readonly style: number;
  value: string | null;
  inline: string;
  isFormula: boolean;
}

export interface ReadGrid {
  readonly grid: Grid;
  readonly unread: readonly Unread[];
  readonly hiddenRows: number;
  readonly hiddenColumns: number;
}

/**
 * Cells of one sheet. Formulas count with the value that was stored with them; one that was never calculated is an
 * error cell and is named. The size that the sheet says it has is not believed.
 *
 * @throws TableError for more cells than `limits` allow, or XML that is none
 */
export const readXlsxSheet = (text: string, sheet: BookSheet, book: Workbook, file: string): ReadGrid => {
  const rows = new Map<number, Cell[]>();
  const merges: Merge[] = [];
  const unread: Unread[] = [];
  let cells = 0;
  let row = 0;
  let column = -1;
  let hiddenRows = 0;
  let hiddenColumns = 0;
  let cell: OpenCell | null = null;
  let into: 'value' | 'inline' | null = null;
  let aside = 0;

  const refuse = (what: string, mend: string): Cell => {
    unread.push({ place: { sheet: sheet.name, row, column: column + 1 }, what, mend });
    return { as: 'error', text: '' };
  };

  const put = (value: Cell): void => {
    if (value === '') return;
    let line = rows.get(row);
    if (line === undefined) rows.set(row, (line = []));
    cells += Math.max(1, column + 1 - line.length);
    if (cells > limits.cells) throw tooLarge(file, `sheet ${sheet.name} has more than ${limits.cells} cells`);
    while (line.length < column) line.push('');
    line[column] = value;
  };

  const cellValue = ({ type, style, value, inline, isFormula }: OpenCell): Cell => {
    if (type === 'inlineStr') return tidy(inline);
    if (value === null || value === '') {
      if (isFormula && type !== 'str')
        return refuse(
          'the formula holds no value',
          'Open the file in a spreadsheet program, let it calculate, and save it again.',
        );
      return '';
    }
    switch (type) {
      case 's':
        return tidy(book.strings[Number(value)] ?? '');
      case 'str':
        return tidy(value);
      case 'b':
        return { as: 'flag', text: value === '1' ? 'true' : 'false' };
      case 'e':
        return { as: 'error', text: value };
      case 'd':
        return { as: 'date', text: value.replace(/Z$/, '') };
      default: {
        const number = Number(value);
        if (!Number.isFinite(number)) return refuse(`"${value.slice(0, 40)}" is no number`, 'Type it again.');
        const shown = book.styles[style] ?? 'number';
        if (shown === 'number') return { as: 'number', text: String(number) };
        // a sheet that shows 5 % holds 0.05: what people see is what they mean
        if (shown === 'per cent') return `${Number((number * 100).toPrecision(15))} %`;
        return (
          dateOfSerial(number, book.dates) ??
          refuse(`the serial number ${number} is no day`, 'Type the date again, as a date.')
        );
      }
    }
  };

  walkXml(text, file, sheet.path, {
    open: (name, attributes) => {
      if (cell !== null) {
        if (name === 'v') into = 'value';
        else if (name === 't' && aside === 0) into = 'inline';
        else if (name === 'f') cell.isFormula = true;
        else if (name === 'rPh') aside += 1;
        return;
      }
      if (name === 'row') {
        const said = attribute(attributes, 'r');
        row = said === '' ? row + 1 : Number(said);
        column = -1;
        if (!(row >= 1 && row <= limits.rows))
          throw tooLarge(file, `sheet ${sheet.name} has a row ${said.slice(0, 20)}`);
        if (isOn(attribute(attributes, 'hidden'))) hiddenRows += 1;
      } else if (name === 'c') {
        const place = readReference(attribute(attributes, 'r'));
        column = place?.column ?? column + 1;
        row = place?.row ?? row;
        if (column >= limits.columns || row > limits.rows)
          throw tooLarge(file, `sheet ${sheet.name} has a cell beyond column XFD or row ${limits.rows}`);
        const style = Number(attribute(attributes, 's') || '0');
        cell = { type: attribute(attributes, 't') || 'n', style, value: null, inline: '', isFormula: false };
      } else if (name === 'col' && isOn(attribute(attributes, 'hidden'))) {
        const last = Math.min(Number(attribute(attributes, 'max')), limits.columns);
        hiddenColumns += Math.max(0, last - Number(attribute(attributes, 'min')) + 1);
      } else if (name === 'mergeCell') {
        const [from = '', to = ''] = attribute(attributes, 'ref').split(':');
        const a = readReference(from);
        const b = readReference(to);
        if (a !== null && b !== null)
          merges.push({ top: a.row, bottom: b.row, left: a.column, right: b.column });
      }
    },
    text: (part) => {
      if (cell === null || into === null) return;
      if (into === 'value') cell.value = (cell.value ?? '') + part;
      else cell.inline += part;
    },
    close: (name) => {
      if (name === 'v' || name === 't') into = null;
      else if (name === 'rPh') aside -= 1;
      else if (name === 'c' && cell !== null) {
        put(cellValue(cell));
        cell = null;
        aside = 0;
      }
    },
  });
  const ordered: readonly GridRow[] = [...rows.entries()]
    .sort(([a], [b]) => a - b)
    .map(([number, line]) => ({ number, lines: 1, cells: line }));
  return {
    grid: { sheet: sheet.name, isHidden: sheet.isHidden, rows: ordered, merges },
    unread,
    hiddenRows,
    hiddenColumns,
  };
};

const isOn = (text: string): boolean => text === '1' || text === 'true';

/** Characters that SpreadsheetML cannot hold are written _x000D_ (ECMA-376 part 1, 22.9.2.19). */
const tidy = (text: string): string =>
  text
    .slice(0, limits.text)
    .replace(/_x([0-9A-Fa-f]{4})_/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    .replaceAll('\0', '')
    .trim();
