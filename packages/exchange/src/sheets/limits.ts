import { TableError } from '../trouble.ts';

/**
 * What a file may ask of the machine that reads it. A season's tables are a few hundred kilobytes; whatever is far
 * beyond is a mistake or an attack, and is refused before it is unpacked. Rows and columns: the most that an XLSX
 * sheet can have. The rest: common practice, no source.
 */
export const limits = {
  /** Of the file as it comes. */
  bytes: 64 * 2 ** 20,
  /** Of everything in a packed file after unpacking. */
  unpacked: 400 * 2 ** 20,
  /** Unpacked over packed, of a part larger than `smallPart`. Real sheets of repeated rows come near 60. */
  ratio: 250,
  smallPart: 2 ** 20,
  parts: 2_000,
  sheets: 200,
  rows: 1_048_576,
  columns: 16_384,
  cells: 4_000_000,
  /** Characters in one cell: the most that an XLSX cell can have. */
  text: 32_767,
  /** Elements inside each other. SpreadsheetML needs about ten. */
  depth: 64,
} as const;

export const tooLarge = (file: string, what: string): TableError =>
  new TableError(
    what,
    { file },
    'Take out what does not belong to the tables, or split the file into several.',
  );
