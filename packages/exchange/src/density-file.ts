import type { DiameterReading, PieceReadings, Wedge } from '@firnbook/science/density';
import type { QuantityError } from '@firnbook/science/quantity-error';
import { inKelvin } from '@firnbook/science/units';
import {
  type Column,
  cell,
  cellError,
  columnAt,
  type FieldNames,
  findColumns,
  metresIn,
  printedIn,
} from './columns.ts';
import type { NamedBytes } from './named-bytes.ts';
import { readTable, type Table, type TableRow } from './table.ts';
import { TableError } from './trouble.ts';

/** Masses, lengths and diameters of pieces from a file, ready for `coreDensity`, and the way back to the file. */
export interface ReadDensityFile {
  readonly pieces: readonly PieceReadings[];
  /** Run (empty where the table has none) and piece as written, in the order of `pieces`. */
  readonly names: readonly { readonly run: string; readonly piece: string }[];
  /** Whether every piece has a top and a bottom. */
  readonly isPlaced: boolean;
  readonly remarks: readonly string[];
  /** An error of the computation with the file, line and column that it came from. */
  readonly placed: (error: QuantityError) => TableError;
}

const field = (header: string, isNeeded: boolean, ...words: string[]): FieldNames => ({
  header,
  words,
  isNeeded,
});

const fields = {
  run: field('run', false, 'run', 'run no', 'run nr', 'run number', 'run #'),
  piece: field('piece', true, 'piece', 'piece no', 'piece nr', 'piece number', 'piece #', 'piece id'),
  top: field('top_m', false, 'top', 'depth top', 'top depth', 'from', 'depth from'),
  bottom: field('bottom_m', false, 'bottom', 'depth bottom', 'bottom depth', 'to', 'depth to'),
  sawnEnds: field('sawn_ends', false, 'sawn ends', 'sawn', 'ends'),
  sawnOff: field('sawn_off_mm', false, 'sawn off'),
  missing: field('missing_percent', false, 'missing percent', 'missing'),
  cutterSet: field('cutter_set', false, 'cutter set', 'cutters', 'set', 'drill set up', 'drill setup'),
  temperature: field(
    'temperature_C',
    false,
    'temperature',
    'temperature c',
    'core temperature',
    'core temperature c',
  ),
};

/** What people write for the ends; a number counts the saw cuts. */
const sawnWords: Readonly<Record<string, 0 | 1 | 2>> = {
  '': 0,
  '0': 0,
  none: 0,
  broken: 0,
  no: 0,
  '1': 1,
  one: 1,
  top: 1,
  bottom: 1,
  '2': 2,
  both: 2,
  sawn: 2,
  yes: 2,
};

/**
 * Reads a table of weighed pieces: piece, mass_g, length_cm, diameter_mm; and where there are such columns run, tare_g,
 * top_m, bottom_m, more lengths and diameters (length_2_cm, diameter_2_mm), diameters across (diameter_across_mm,
 * diameter_2_across_mm), sawn_ends, sawn_off_mm, wedge_kind, wedge_depth_mm, wedge_length_mm (wedge_2_...), missing_percent,
 * cutter_set, temperature_C. Masses name g or kg in their header; lengths count in metres where theirs names no unit.
 * Empty cells are readings that were not taken.
 *
 * @throws TableError with file, line, column and what to do
 */
export const readDensityFile = (file: NamedBytes): ReadDensityFile => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, fields, ['top', 'bottom', 'sawnOff']);
  const gross = massColumn(table, ['mass', 'gross', 'gross mass', 'weight', 'gross weight']);
  if (gross === null)
    throw new TableError(
      'there is no column "mass_g"',
      { file: table.file, line: headerLine(table) },
      `The header has: ${table.headings.map(({ text }) => text).join(', ')}. Name the column of masses mass_g or mass_kg.`,
    );
  const tare = massColumn(table, ['tare', 'tare mass', 'tray', 'tray mass', 'bag mass']);
  const lengths = numbered(table, 'length');
  const diameters = numbered(table, 'diameter');
  for (const [columnsOf, name] of [
    [lengths, 'length_cm'],
    [diameters, 'diameter_mm'],
  ] as const)
    if (columnsOf.length === 0)
      throw new TableError(
        `there is no column "${name}"`,
        { file: table.file, line: headerLine(table) },
        `The header has: ${table.headings.map(({ text }) => text).join(', ')}. Name the column ${name}.`,
      );
  const across = numbered(table, 'diameter', ' across');
  const wedges = wedgeColumns(table);

  const lines = new Map<string, number>();
  const names: { run: string; piece: string }[] = [];
  const remarks: string[] = [];
  const pieces = table.rows.map((row): PieceReadings => {
    const run = cell(row, columns.run);
    const piece = cell(row, columns.piece);
    if (piece === '') throw cellError(table, row, columns.piece!, 'the piece is empty', 'Write its number.');
    const id = run === '' ? piece : `${run}-${piece}`;
    const before = lines.get(id);
    if (before !== undefined)
      throw cellError(
        table,
        row,
        columns.piece!,
        `piece ${id} is there already, in line ${before}`,
        'Give each piece one line: further lengths and diameters are columns (length_2_cm, diameter_2_mm).',
      );
    lines.set(id, row.line);
    names.push({ run, piece });
    const mass = kilogramsIn(table, row, gross);
    const tareMass = kilogramsIn(table, row, tare);
    const top = metresIn(table, row, columns.top);
    const bottom = metresIn(table, row, columns.bottom);
    if ((top === null) !== (bottom === null))
      remarks.push(
        `${table.file}, line ${row.line}: one end has no depth; the piece is taken without a place.`,
      );
    if (top !== null && bottom !== null && bottom <= top)
      throw cellError(
        table,
        row,
        columns.bottom!,
        `the bottom (${cell(row, columns.bottom)}) is not below the top (${cell(row, columns.top)})`,
        'Depths count down from the zero: correct one of the two.',
      );
    const sawnOff = metresIn(table, row, columns.sawnOff);
    const missing = printedIn(table, row, columns.missing)?.value ?? null;
    const temperature = printedIn(table, row, columns.temperature)?.value ?? null;
    return {
      id,
      cutterSet: cell(row, columns.cutterSet),
      ...(mass !== null && { gross: mass }),
      ...(tareMass !== null && { tare: tareMass }),
      lengths: lengths.flatMap(({ column }) => metresIn(table, row, column) ?? []),
      diameters: diameters.flatMap(({ number, column }) =>
        diameterIn(table, row, column, across.find((one) => one.number === number)?.column),
      ),
      sawnEnds: sawnEndsIn(table, row, columns.sawnEnds),
      ...(sawnOff !== null && { sawnOff }),
      wedges: wedges.flatMap((columnsOf) => wedgeIn(table, row, columnsOf) ?? []),
      ...(missing !== null && { missingShare: shareIn(table, row, columns.missing!, missing) }),
      ...(temperature !== null && { temperature: kelvin(table, row, columns.temperature!, temperature) }),
      ...(top !== null && bottom !== null && { top, bottom }),
    };
  });
  if (pieces.length === 0)
    throw new TableError(
      'there are no pieces, only a header',
      { file: table.file },
      'Add one line for each piece.',
    );
  return {
    pieces,
    names,
    isPlaced: pieces.every(({ top }) => top !== undefined),
    remarks,
    placed: (error) => {
      const line = lines.get(error.where.replace(/^piece /, ''));
      const column = [gross, tare, ...lengths, ...diameters]
        .map((one) => (one !== null && 'column' in one ? one.column : one))
        .find((one) => one !== null && error.what.includes(nameOf(one)));
      return new TableError(
        `${error.where}: ${error.what}`,
        {
          file: table.file,
          ...(line !== undefined && { line }),
          ...(column !== undefined && column !== null && { column: column.index + 1, header: column.header }),
        },
        `Allowed: ${error.allowed}. Look at the figure and at the unit in the header.`,
      );
    },
  };
};

/** "length_2_cm" names a length, "gross_g" the mass. */
const nameOf = (column: Column): string => {
  const name = column.header.toLowerCase().match(/length|diameter|tare/)?.[0];
  return name ?? 'mass';
};

const headerLine = (table: Table): number => Math.max(1, (table.rows[0]?.line ?? 2) - 1);

const kelvin = (table: Table, row: TableRow, column: Column, celsius: number): number => {
  if (celsius <= 0 && celsius >= -80) return inKelvin(celsius);
  throw cellError(
    table,
    row,
    column,
    `a temperature of ${celsius} is not that of a core`,
    'Write degrees Celsius, -80 to 0.',
  );
};

const shareIn = (table: Table, row: TableRow, column: Column, percent: number): number => {
  if (percent >= 0 && percent <= 95) return percent / 100;
  throw cellError(
    table,
    row,
    column,
    `${percent} % of a piece is not missing`,
    'Write how many percent of its volume are missing, 0 to 95.',
  );
};

interface MassColumn extends Column {
  readonly kilograms: number;
}

const massUnits: Readonly<Record<string, number>> = { g: 0.001, kg: 1 };

/** @throws TableError where the header names no unit of mass */
const massColumn = (table: Table, names: readonly string[]): MassColumn | null => {
  for (const name of names)
    for (const [index, { words, unit, text }] of table.headings.entries()) {
      const named =
        words === name
          ? unit?.toLowerCase()
          : words.startsWith(`${name} `)
            ? words.slice(name.length + 1)
            : null;
      if (named === null) continue;
      const kilograms = named === undefined ? undefined : massUnits[named];
      if (kilograms !== undefined) return { index, header: text, metres: 1, kilograms };
      if (words === name)
        throw new TableError(
          named === undefined
            ? `the column "${text}" says no unit`
            : `the unit "${named}" is not known for a mass`,
          { file: table.file, line: headerLine(table), column: index + 1, header: text },
          `Write ${name.replaceAll(' ', '_')}_g or ${name.replaceAll(' ', '_')}_kg.`,
        );
    }
  return null;
};

const kilogramsIn = (table: Table, row: TableRow, column: MassColumn | null): number | null => {
  if (column === null) return null;
  const number = printedIn(table, row, column);
  return number === null ? null : Number((number.value * column.kilograms).toPrecision(15));
};

/** "length", "length 2", ... in the order of their numbers. */
const numbered = (table: Table, name: string, suffix = '') =>
  table.headings
    .flatMap(({ words }, index) => {
      const match = new RegExp(`^${name}(?: (\\d))?${suffix}$`).exec(words);
      return match === null ? [] : [{ number: Number(match[1] ?? 1), column: columnAt(table, index, true) }];
    })
    .toSorted((a, b) => a.number - b.number);

const diameterIn = (
  table: Table,
  row: TableRow,
  column: Column,
  across: Column | undefined,
): readonly DiameterReading[] => {
  const along = metresIn(table, row, column);
  const other = metresIn(table, row, across);
  if (along === null) return other === null ? [] : [other];
  return other === null ? [along] : [[along, other]];
};

const sawnEndsIn = (table: Table, row: TableRow, column: Column | undefined): 0 | 1 | 2 => {
  const ends = sawnWords[cell(row, column).toLowerCase()];
  if (ends === undefined)
    throw cellError(
      table,
      row,
      column!,
      `"${cell(row, column)}" does not say which ends are sawn`,
      'Write none, one or both (also 0, 1, 2).',
    );
  return ends;
};

interface WedgeColumns {
  readonly kind: Column | undefined;
  readonly depth: Column;
  readonly length: Column;
}

const wedgeColumns = (table: Table): readonly WedgeColumns[] => {
  const kinds = numberedWedge(table, 'kind', false);
  const lengths = numberedWedge(table, 'length', true);
  return numberedWedge(table, 'depth', true).map(({ number, column }) => {
    const of = (columns: readonly { number: number; column: Column }[]) =>
      columns.find((one) => one.number === number)?.column;
    const length = of(lengths);
    if (length === undefined)
      throw new TableError(
        `there is a depth of a wedge and no length`,
        { file: table.file, line: headerLine(table), column: column.index + 1, header: column.header },
        'Add the column wedge_length_mm.',
      );
    return { kind: of(kinds), depth: column, length };
  });
};

const numberedWedge = (table: Table, what: string, isLength: boolean) =>
  table.headings.flatMap(({ words }, index) => {
    const match = new RegExp(`^wedge(?: (\\d))? ${what}$`).exec(words);
    return match === null
      ? []
      : [{ number: Number(match[1] ?? 1), column: columnAt(table, index, isLength) }];
  });

const wedgeIn = (table: Table, row: TableRow, columns: WedgeColumns): Wedge | null => {
  const depth = metresIn(table, row, columns.depth);
  const length = metresIn(table, row, columns.length);
  if (depth === null && length === null) return null;
  if (depth === null || length === null)
    throw cellError(
      table,
      row,
      depth === null ? columns.depth : columns.length,
      'a missing wedge needs its depth and its length',
      'Write both, or leave both empty.',
    );
  const kind = cell(row, columns.kind).toLowerCase() || 'end';
  if (kind !== 'end' && kind !== 'side')
    throw cellError(
      table,
      row,
      columns.kind!,
      `"${kind}" is no kind of wedge`,
      'Write end (a corner broken off) or side (a strip along the core).',
    );
  return { kind, depth, length };
};
