import {
  type BagRange,
  type Closure,
  checkEitherEnd,
  checkIntervals,
  type DepthRow,
  type Figure,
  halfUnits,
  type IntervalRow,
} from '@firnbook/science/intervals';
import { type Column, cell, cellError, columnAt, printedIn } from './columns.ts';
import type { NamedBytes } from './named-bytes.ts';
import { inMetres } from './number.ts';
import { readTable, type Table } from './table.ts';
import { TableError } from './trouble.ts';

/** Columns by header or number (from 1), where they are not to be guessed; bag length in metres. */
export interface IntervalColumns {
  readonly top?: string;
  readonly bottom?: string;
  readonly length?: string;
  readonly bag?: string;
  readonly bagLength?: number;
}

type Part = 'top' | 'bottom' | 'length' | 'bag' | 'depth';

export interface CheckedFile {
  readonly closure: Closure;
  /** Line in the file of each row. */
  readonly lines: readonly number[];
  /** Bag, run or name of each row as written; '' where the table has none. And the header's word for it. */
  readonly labels: readonly string[];
  readonly labelled: string;
  /** Header of each column that was used. */
  readonly used: Readonly<Partial<Record<Part, string>>>;
  /** Where the table gives one depth per row: which end of the row it turned out to be. */
  readonly depthIs: 'top' | 'bottom' | null;
  /** Most decimals of a metre among the depths, and among all figures. */
  readonly depthDecimals: number;
  readonly decimals: number;
}

const depthWord = /^(?:depth|z|tiefe|profondeur|recorded depth|core depth|hole depth)$/;
const guesses: Readonly<Record<Part, readonly RegExp[]>> = {
  top: [
    /^(?:depth )?(?:top|from|start|upper|begin)(?: depth)?$/,
    /^(?:z ?top|top ?z|z ?from|z ?start|z ?1|z ?min|depth ?1|min depth|depth min)$/,
    /^(?:core|bag|layer|sample|interval|piece|run) (?:top|from|start|depth from|depth top|top depth)$/,
    /^(?:top|from|start|upper) (?:of )?(?:core|bag|layer|sample|interval|piece)$/,
  ],
  bottom: [
    /^(?:depth )?(?:bottom|bot|base|to|end|lower)(?: depth)?$/,
    /^(?:z ?(?:bottom|bot|base)|(?:bottom|bot|base) ?z|z ?to|z ?end|z ?2|z ?max|depth ?2|max depth|depth max)$/,
    /^(?:core|bag|layer|sample|interval|piece|run) (?:bottom|bot|to|end|depth to|depth bottom|bottom depth)$/,
    /^(?:bottom|bot|to|end|lower) (?:of )?(?:core|bag|layer|sample|interval|piece)$/,
  ],
  length: [/^(?:(?:core|piece|bag|sample|layer|run|interval) )?(?:length|thickness|len)$/],
  bag: [/^bags?(?: (?:no|nr|number|id|#|interval|range))?$/],
  depth: [depthWord],
};
const labelWords =
  /^(?:(?:run|piece|sample|layer|core|section|name|id|no|nr|number|label|tube)(?: (?:no|nr|number|id|#))?|#)$/;

/**
 * Reads a table of depth intervals, or of lengths with recorded depths, and checks that it closes.
 *
 * @throws TableError where columns can't be found or a figure is none
 */
export const checkIntervalFile = (file: NamedBytes, wanted: IntervalColumns = {}): CheckedFile =>
  checkIntervalTable(readTable(file.bytes, file.name), wanted);

/**
 * The same for a table that was read before.
 *
 * @throws TableError where columns can't be found or a figure is none
 */
export const checkIntervalTable = (table: Table, wanted: IntervalColumns = {}): CheckedFile => {
  const columns = chooseColumns(table, wanted);
  const top = figures(table, columns.top);
  const bottom = figures(table, columns.bottom);
  const length = figures(table, columns.length);
  const depth = figures(table, columns.depth);
  const rows: DepthRow[] = table.rows.map((row, i) => {
    const bag = columns.bag === undefined ? null : bagIn(table, row, columns.bag);
    return {
      ...(top.list[i] && { top: top.list[i] }),
      ...(bottom.list[i] && { bottom: bottom.list[i] }),
      ...(length.list[i] && { length: length.list[i] }),
      ...(depth.list[i] && { depth: depth.list[i] }),
      ...(bag && { bag }),
    };
  });
  if (!rows.some((row) => row.depth ?? (row as IntervalRow).top ?? (row as IntervalRow).bottom ?? row.length))
    throw new TableError('no row holds a figure', { file: table.file }, 'Fill in depths or lengths.');
  const options = wanted.bagLength === undefined ? {} : { bagLength: wanted.bagLength };
  const either = columns.depth === undefined ? null : checkEitherEnd(rows, options);
  const label = columns.bag?.index ?? table.headings.findIndex(({ words }) => labelWords.test(words));
  return {
    closure: either?.closure ?? checkIntervals(rows as readonly IntervalRow[], options),
    lines: table.rows.map((row) => row.line),
    labels: table.rows.map((row) => (label < 0 ? '' : row.cells[label]!)),
    labelled: columns.bag !== undefined ? 'bag' : (table.headings[label]?.words ?? ''),
    used: Object.fromEntries(Object.entries(columns).map(([part, column]) => [part, column.header])),
    depthIs: either?.side ?? null,
    depthDecimals: Math.max(top.decimals, bottom.decimals, depth.decimals),
    decimals: Math.max(top.decimals, bottom.decimals, length.decimals, depth.decimals),
  };
};

const chooseColumns = (table: Table, wanted: IntervalColumns): Partial<Record<Part, Column>> => {
  const chosen: Partial<Record<Part, Column>> = {};
  const taken = new Set<number>();
  const take = (part: Part, index: number) => {
    taken.add(index);
    chosen[part] = columnAt(table, index, part !== 'bag');
  };
  for (const part of ['top', 'bottom', 'length', 'bag'] as const) {
    const name = wanted[part];
    if (name !== undefined) take(part, columnNamed(table, name, `--${part}`));
  }
  const isGiven = chosen.top !== undefined || chosen.bottom !== undefined;
  for (const part of ['top', 'bottom', 'length', 'bag', 'depth'] as const) {
    if (chosen[part] !== undefined) continue;
    // columns named on purpose are the whole truth about depths
    if (isGiven && part !== 'bag' && part !== 'length') continue;
    if (part === 'depth' && (chosen.top !== undefined || chosen.bottom !== undefined)) continue;
    const index = guess(table, part, taken);
    if (index !== null) take(part, index);
  }
  const { top, bottom, length, bag, depth } = chosen;
  const hasDepth = top !== undefined || bottom !== undefined || depth !== undefined;
  const isEnough =
    (top !== undefined && bottom !== undefined) ||
    (hasDepth && (length !== undefined || bag !== undefined || wanted.bagLength !== undefined)) ||
    (length !== undefined && bag !== undefined);
  if (!isEnough)
    throw new TableError(
      hasDepth
        ? `only one depth per row was found (${(top ?? bottom ?? depth)!.header}), and neither lengths nor bags`
        : 'no columns of depths were found',
      { file: table.file, line: Math.max(1, (table.rows[0]?.line ?? 2) - 1) },
      `The header has: ${table.headings.map(({ text }) => text).join(', ')}. Name the columns, for example --top "${
        table.headings[0]!.text
      }" --bottom "${(table.headings[1] ?? table.headings[0]!).text}" (or --length, --bag, --bag-length).`,
    );
  return chosen;
};

const columnNamed = (table: Table, name: string, option: string): number => {
  const plain = (text: string) => text.trim().toLowerCase();
  const fitting = table.headings.flatMap(({ text, words }, i) =>
    plain(text) === plain(name) || words === plain(name) ? [i] : [],
  );
  const exact = fitting.find((i) => table.headings[i]!.text === name);
  const number = /^\d+$/.test(name) ? Number(name) - 1 : -1;
  const index = exact ?? fitting[0] ?? (number < table.headings.length ? number : -1);
  if (index < 0)
    throw new TableError(
      `there is no column "${name}" (${option})`,
      { file: table.file, line: 1 },
      `The header has: ${table.headings.map(({ text }) => text).join(', ')}.`,
    );
  return index;
};

const guess = (table: Table, part: Part, taken: ReadonlySet<number>): number | null => {
  for (const form of guesses[part]) {
    const index = table.headings.findIndex(({ words, unit, metres }, i) => {
      // "Depth ice/snow [m w.e.]" and the like are no lengths along the core
      const isLength = part === 'bag' || unit === null || metres !== null;
      return !taken.has(i) && isLength && form.test(words);
    });
    if (index >= 0) return index;
  }
  return null;
};

interface Figures {
  readonly list: readonly (Figure | null)[];
  readonly decimals: number;
}

const figures = (table: Table, column: Column | undefined): Figures => {
  if (column === undefined) return { list: [], decimals: 0 };
  const printed = table.rows.map((row) => printedIn(table, row, column));
  const halves = halfUnits(printed, column.metres);
  let finest = 1;
  const list = printed.map((number, i) => {
    if (number === null) return null;
    finest = Math.min(finest, 2 * halves[i]!);
    return { value: inMetres(number.value, column.metres), half: halves[i]! };
  });
  return { list, decimals: Math.min(9, Math.max(0, Math.round(-Math.log10(finest)))) };
};

const bagForm = /^\D*?(\d+)(?:\s*(?:-|\u2013|to|\.\.)\s*\D*?(\d+))?$/;

/** "7", "B-7", "215-226". @throws TableError for anything else; null where the cell is empty */
const bagIn = (table: Table, row: Table['rows'][number], column: Column): BagRange | null => {
  const text = cell(row, column);
  if (text === '' || text === '-') return null;
  const match = bagForm.exec(text.replace(/[.,]0+$/, ''));
  const first = Number(match?.[1]);
  const last = match?.[2] === undefined ? first : Number(match[2]);
  if (match === null || first < 1 || last < first)
    throw cellError(
      table,
      row,
      column,
      `"${text}" is no bag number and no range of bags`,
      'Write 7 or 215-226; bags count from 1.',
    );
  return { first, last };
};
