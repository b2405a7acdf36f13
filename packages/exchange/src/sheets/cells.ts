/** What a spreadsheet program already knows of a cell. Text files have texts only. */
interface TypedCell {
  /**
   * number: `text` is the shortest decimal that names the stored double. date, time: ISO 8601 without an offset.
   * flag: "true" or "false". error: "#DIV/0!", or a formula that holds no value.
   */
  readonly as: 'number' | 'date' | 'time' | 'flag' | 'error';
  readonly text: string;
}

/** '' is an empty cell. Texts are without blanks around them. */
export type Cell = string | TypedCell;

export const textOf = (cell: Cell): string => (typeof cell === 'string' ? cell : cell.text);

export const isBlank = (cell: Cell | undefined): boolean => cell === undefined || cell === '';

/** Cells in one, rows by number, columns from 0, both ends counted in. */
export interface Merge {
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

export interface GridRow {
  /** As a person counts it, from 1: the sheet's row, or the line in a text file. */
  readonly number: number;
  /** Lines that it takes: more than one where a cell of a text file holds line ends. */
  readonly lines: number;
  /** From the first column on; blank ones at the end left off. */
  readonly cells: readonly Cell[];
}

/** One sheet, or a whole text file, as it stands: nothing understood yet. */
export interface Grid {
  /** Name of the sheet; null for a text file. */
  readonly sheet: string | null;
  readonly isHidden: boolean;
  /** Rows that hold something, in order. */
  readonly rows: readonly GridRow[];
  readonly merges: readonly Merge[];
}

/** Where a cell stands: rows as `GridRow.number`, columns from 1. */
export interface CellPlace {
  readonly sheet: string | null;
  readonly row: number;
  readonly column: number | null;
  /** The column's header where it is known. */
  readonly header?: string;
}

/** Something that could not be read, where it stands, and what to do about it. */
export interface Unread {
  readonly place: CellPlace;
  readonly what: string;
  readonly mend: string;
}

/** 1 is A, 27 is AA. */
export const columnLetter = (column: number): string => {
  let rest = column;
  let letters = '';
  while (rest > 0) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
    rest = Math.floor((rest - 1) / 26);
  }
  return letters;
};

/** "sheet Runs, row 12, column C (length)", or for a text file "line 12, column 3 (length)". */
export const cellPlaceInWords = ({ sheet, row, column, header }: CellPlace): string =>
  [
    sheet === null ? null : `sheet ${sheet}`,
    `${sheet === null ? 'line' : 'row'} ${row}`,
    column === null
      ? null
      : `column ${sheet === null ? column : columnLetter(column)}${header === undefined || header === '' ? '' : ` (${header})`}`,
  ]
    .filter((part) => part !== null)
    .join(', ');
