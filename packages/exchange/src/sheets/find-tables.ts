import { type Block, cellAt, findBlocks } from './blocks.ts';
import { type Cell, type Grid, type GridRow, isBlank, type Merge, textOf } from './cells.ts';
import { isDateLike } from './dates.ts';
import { isUnit, readHeader, unitIn } from './header.ts';
import { isNumberLike, saysNothing } from './numerals.ts';
import { headingKey, rowText, type SheetColumn, type SheetRow, type SheetTable } from './tables.ts';

/** Rows from the top of a block among which the heading is looked for, and rows below that it is judged by. */
const headerWithin = 40;
const judgedBy = 60;
/** Share of a table's columns that a heading names at least. */
const named = 0.6;

const isDash = (cell: Cell): boolean => /^[-\u2013\u2014]+$/.test(textOf(cell));

/** Share of a block's columns that a row of data fills, so that a line of facts above is not taken for one. */
const wholeRow = 0.75;

const isData = (cell: Cell): boolean => typeof cell !== 'string' || isNumberLike(cell) || isDateLike(cell);

/**
 * Tables of a sheet, each with its own heading. Rows that stand alone above a table are its title. A block of rows
 * without a heading below a table is more of that table: somebody left a row blank.
 */
export const findTables = (grid: Grid): readonly SheetTable[] => {
  const tables: Draft[] = [];
  let title: string[] = [];
  for (const block of findBlocks(grid)) {
    const header = block.left === block.right ? null : findHeader(block);
    const above = tables.findLast((table) => table.left <= block.left && block.right <= table.right);
    if (above !== undefined && header !== null && isSameHeader(above, block, header)) {
      goOn(above, block.rows.slice(header + 1));
      continue;
    }
    if (header === null) {
      if (above !== undefined && isMore(block)) goOn(above, block.rows);
      else title.push(...block.rows.map((row) => blockText(row, block)));
      continue;
    }
    const last = tables.at(-1);
    if (last !== undefined && areFacts(last, block)) {
      tables.pop();
      title.push(
        ...last.title,
        ...last.block.rows.slice(last.firstRow).map((row) => blockText(row, last.block)),
      );
    }
    title.push(
      ...block.rows
        .slice(0, groupRow(block, header, grid.merges) ?? header)
        .map((row) => blockText(row, block)),
    );
    tables.push(begin(block, header, grid.merges, title));
    title = [];
  }
  return tables.map((draft, i) => finish(draft, grid, i));
};

/**
 * "Logged by; KM", "Date; 12.06.2026": two columns of words and what they say, just above a wider table, are facts
 * about that one and no table of their own.
 */
const areFacts = (above: Draft, block: Block): boolean => {
  const gap = block.rows[0]!.number - (above.rows.at(-1)?.number ?? above.headerRow);
  if (above.columns.length !== 2 || block.right - block.left < 2 || gap > 3 || gap < 1) return false;
  return above.rows.every((row) => !isData(cellAt(row, above.left)));
};

interface Draft {
  readonly block: Block;
  /** Index of the heading's first line among the block's rows. */
  readonly firstRow: number;
  readonly left: number;
  readonly right: number;
  readonly title: readonly string[];
  readonly headerRow: number;
  readonly columns: readonly SheetColumn[];
  readonly rows: GridRow[];
}

const blockText = (row: GridRow, { left, right }: Block): string => rowText(row.cells.slice(left, right + 1));

/** Index of the heading among the block's rows: the row of words that names most of the columns filled below it. */
const findHeader = (block: Block): number | null => {
  const { rows, left, right } = block;
  let best: number | null = null;
  let bestScore = 0;
  for (let i = 0; i < Math.min(rows.length, headerWithin); i++) {
    const row = rows[i]!;
    let texts = 0;
    let hasData = false;
    let filledCells = 0;
    for (let column = left; column <= right; column++) {
      const cell = cellAt(row, column);
      if (isBlank(cell)) continue;
      filledCells += 1;
      // a dash is a blank cell of a row; "Na" may be sodium
      if (isData(cell) || isDash(cell)) hasData = true;
      else texts += 1;
    }
    // below a whole row of data there is no heading any more
    if (hasData && best !== null && filledCells > wholeRow * (right - left + 1)) break;
    if (hasData || texts < 2) continue;
    const below = dataRows(block, i + 1);
    let filled = 0;
    let both = 0;
    let typed = 0;
    for (let column = left; column <= right; column++) {
      const cells = below
        .map((one) => cellAt(one, column))
        .filter((cell) => !isBlank(cell) && !saysNothing(cell));
      const isNamed = !isBlank(cellAt(row, column));
      if (cells.length > 0) filled += 1;
      if (cells.length > 0 && isNamed) both += 1;
      if (isNamed && cells.filter(isData).length > 0.7 * cells.length) typed += 1;
    }
    const share = filled === 0 ? 1 : both / filled;
    // a table without a row yet is a heading too; its own words have to fill most of the block then
    if (filled === 0 && texts < named * (right - left + 1)) continue;
    if (share < named) continue;
    const isUnits = rowCells(row, block).every((cell) => isUnit(textOf(cell)));
    const score = 3 * share + typed / Math.max(1, texts) - (isUnits ? 3 : 0);
    if (score > bestScore + 1e-9) {
      best = i;
      bestScore = score;
    }
  }
  return best;
};

/** Rows from an index on by which a heading is judged: those with figures; where there are none, all. */
const dataRows = (block: Block, from: number): readonly GridRow[] => {
  const rows = block.rows.slice(from, from + judgedBy);
  const withFigures = rows.filter((row) => rowCells(row, block).some(isData));
  return withFigures.length > 0 ? withFigures : rows;
};

const rowCells = (row: GridRow, { left, right }: Block): readonly Cell[] =>
  row.cells.slice(left, right + 1).filter((cell) => !isBlank(cell));

/** A line above the heading whose words stand over several columns: "Depth" merged over "from" and "to". */
const groupRow = (block: Block, header: number, merges: readonly Merge[]): number | null => {
  const above = block.rows[header - 1];
  const own = block.rows[header]!;
  if (above === undefined || above.number + above.lines !== own.number) return null;
  const width = block.right - block.left + 1;
  const isGroup = merges.some(
    ({ top, left, right }) =>
      top === above.number && right > left && right - left + 1 < width && left >= block.left,
  );
  return isGroup ? header - 1 : null;
};

/** Whether the row below the heading is a second line of it: units, or words over columns of figures. */
const secondLine = (block: Block, header: number): 'units' | 'words' | null => {
  const next = block.rows[header + 1];
  if (next === undefined || next.number !== block.rows[header]!.number + block.rows[header]!.lines)
    return null;
  const cells = rowCells(next, block);
  if (cells.length === 0) return null;
  if (cells.every((cell) => typeof cell === 'string' && (isUnit(cell) || saysNothing(cell)))) {
    // a row that is the last may well be one: "A" is hole A before it is ampere
    const hasMore = block.rows.length > header + 2;
    return hasMore && cells.some((cell) => isUnit(textOf(cell)) && unitIn(textOf(cell)) !== null)
      ? 'units'
      : null;
  }
  if (cells.some(isData)) return null;
  // a first row of words over figures is no heading where it has its own first cell and every column a name above
  const upper = block.rows[header]!;
  let over = 0;
  let figures = 0;
  let isSplit = isBlank(cellAt(next, block.left));
  for (let column = block.left; column <= block.right; column++) {
    const cell = cellAt(next, column);
    if (isBlank(cell)) continue;
    if (isDash(cell)) return null;
    over += 1;
    if (isBlank(cellAt(upper, column))) isSplit = true;
    const below = dataRows(block, header + 2)
      .map((row) => cellAt(row, column))
      .filter((one) => !isBlank(one) && !saysNothing(one));
    if (below.length > 0 && below.filter(isData).length > 0.7 * below.length) figures += 1;
  }
  return isSplit && figures > 0 && figures * 2 >= over ? 'words' : null;
};

const begin = (block: Block, header: number, merges: readonly Merge[], title: readonly string[]): Draft => {
  const first = groupRow(block, header, merges) ?? header;
  let last = header;
  let units: GridRow | null = null;
  let second = secondLine(block, last);
  if (second === 'words') {
    last += 1;
    second = secondLine(block, last);
  }
  if (second === 'units') {
    last += 1;
    units = block.rows[last]!;
  }
  const lines = block.rows.slice(first, units === null ? last + 1 : last);
  const columns: SheetColumn[] = [];
  for (let column = block.left; column <= block.right; column++) {
    const parts = lines.map((line, i) =>
      headingPart(line, column, i < lines.length - 1, lines, merges, block),
    );
    const text = [...new Set(parts.filter((part) => part !== ''))].join(' ');
    const isFilled = text !== '' || block.rows.slice(last + 1).some((row) => !isBlank(cellAt(row, column)));
    if (!isFilled) continue;
    const read = readHeader(text);
    const below = units === null ? '' : textOf(cellAt(units, column));
    const unit = read.unit ?? (below === '' ? null : unitIn(below));
    columns.push({ column: column + 1, ...read, unit });
  }
  return {
    block,
    firstRow: first,
    left: block.left,
    right: block.right,
    title: [...title],
    headerRow: block.rows[first]!.number,
    columns,
    rows: block.rows.slice(last + 1),
  };
};

/**
 * What one line of a heading says over a column. A merged cell counts for all columns it covers. Without one (a text
 * file), a blank right of a group's name belongs to the group where the line below has words in both columns.
 */
const headingPart = (
  line: GridRow,
  column: number,
  isUpper: boolean,
  lines: readonly GridRow[],
  merges: readonly Merge[],
  block: Block,
): string => {
  const own = cellAt(line, column);
  if (!isBlank(own)) return textOf(own);
  const merge = merges.find(
    ({ top, bottom, left, right }) =>
      top <= line.number && line.number <= bottom && left <= column && column <= right,
  );
  if (merge !== undefined) {
    const source = lines.find(({ number }) => number === merge.top);
    return source === undefined ? '' : textOf(cellAt(source, merge.left));
  }
  const below = lines[lines.indexOf(line) + 1];
  if (!isUpper || merges.length > 0 || below === undefined || isBlank(cellAt(below, column))) return '';
  for (let before = column - 1; before >= block.left; before--) {
    if (isBlank(cellAt(below, before))) return '';
    if (!isBlank(cellAt(line, before))) return textOf(cellAt(line, before));
  }
  return '';
};

/** Rows for a table: of a row that a blank column cuts in two, each part brings the whole. */
const goOn = (above: Draft, rows: readonly GridRow[]): void => {
  for (const row of rows) if ((above.rows.at(-1)?.number ?? 0) < row.number) above.rows.push(row);
};

const isSameHeader = (above: Draft, block: Block, header: number): boolean => {
  const row = block.rows[header]!;
  return above.columns.every(
    ({ column, text }) => headingKey(textOf(cellAt(row, column - 1))) === headingKey(text),
  );
};

/** Whether rows without a heading, below a table and within its columns, are more of it: they hold figures. */
const isMore = (block: Block): boolean =>
  block.rows.some((row) => rowCells(row, block).length > 1 || block.left === block.right) &&
  block.rows.some((row) => rowCells(row, block).some(isData));

const finish = (draft: Draft, grid: Grid, index: number): SheetTable => {
  const { columns } = draft;
  const inside = grid.merges.filter(
    ({ left, right, bottom }) =>
      left <= draft.right && right >= draft.left && bottom >= (draft.rows[0]?.number ?? 0),
  );
  const byNumber = new Map(grid.rows.map((row) => [row.number, row]));
  const rows: SheetRow[] = [];
  for (const row of draft.rows) {
    const cells: Cell[] = columns.map(({ column }) => cellAt(row, column - 1));
    const isRepeat =
      columns.length > 1 &&
      cells.every((cell, i) => headingKey(textOf(cell)) === headingKey(columns[i]!.text));
    if (isRepeat) continue;
    const merged: number[] = [];
    for (const merge of inside) {
      if (merge.top >= row.number || merge.bottom < row.number || merge.left !== merge.right) continue;
      const at = columns.findIndex(({ column }) => column - 1 === merge.left);
      const value = byNumber.get(merge.top) === undefined ? '' : cellAt(byNumber.get(merge.top)!, merge.left);
      if (at < 0 || isBlank(value) || !isBlank(cells[at])) continue;
      cells[at] = value;
      merged.push(at);
    }
    rows.push({ row: row.number, cells, merged });
  }
  return {
    sheet: grid.sheet,
    isHidden: grid.isHidden,
    number: index + 1,
    title: draft.title,
    headerRow: draft.headerRow,
    columns,
    rows,
  };
};
