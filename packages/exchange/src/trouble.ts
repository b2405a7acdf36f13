/** Where in a file: line and column count from 1 as an editor shows them; column as the table's column. */
export interface Place {
  readonly file: string;
  readonly line?: number;
  /** Number of the table's column, from 1, and its header where it has one. */
  readonly column?: number;
  readonly header?: string;
}

/** A file cannot be used as it is: what is wrong, where, and what to do about it. */
export class TableError extends Error {
  readonly what: string;
  readonly place: Place;
  readonly mend: string;

  constructor(what: string, place: Place, mend: string) {
    super(`${placeInWords(place)}: ${what}. ${mend}`);
    this.name = 'TableError';
    this.what = what;
    this.place = place;
    this.mend = mend;
  }
}

/** "runs.csv, line 4, column 3 (depth_to_m)". */
export const placeInWords = ({ file, line, column, header }: Place): string =>
  [
    file,
    line === undefined ? null : `line ${line}`,
    column === undefined
      ? null
      : `column ${column}${header === undefined || header === '' ? '' : ` (${header})`}`,
  ]
    .filter((part) => part !== null)
    .join(', ');
