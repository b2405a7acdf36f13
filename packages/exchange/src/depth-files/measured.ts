import type { CableCheck, SoundingReading, StrainTable, ZeroReading } from '@firnbook/science/depth';
import { cell, cellError, findColumns, metresIn, printedIn } from '../columns.ts';
import type { NamedBytes } from '../named-bytes.ts';
import { readTable } from '../table.ts';
import { depthIn, type KnownRuns, knownRun, named, needed, noRows, sdIn } from './cells.ts';
import { field, runWords } from './fields.ts';

export const soundingFields = {
  run: field('after_run', true, 'after run', ...runWords),
  depth: field('hole_depth_m', true, 'hole depth', 'depth', 'sounding', 'sounding depth'),
  sd: field('sd_m', true, 'sd', 'depth sd', 'hole depth sd', 'sigma', 'standard deviation'),
};

/** Depths of the hole by weighted tape. */
export const readSoundings = (file: NamedBytes, runs: KnownRuns) => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, soundingFields, ['depth', 'sd']);
  const written = new Map<string, string>();
  const readings: SoundingReading[] = table.rows.map((row) => {
    const afterRun = knownRun(table, row, columns.run!, runs);
    const depth = needed(depthIn(table, row, columns.depth), table, row, columns.depth!, 'depth');
    const sd = metresIn(table, row, columns.sd);
    if (sd === null || !(sd > 0))
      throw cellError(
        table,
        row,
        columns.sd!,
        'a sounding needs its standard deviation, larger than 0',
        'By weighted tape 0.03 to 0.05 m at 100 m are usual (common practice).',
      );
    const id = `${afterRun} line ${row.line}`;
    written.set(id, cell(row, columns.run));
    return { id, afterRun, depth, sd };
  });
  return { columns, written, readings };
};

export const checkFields = {
  run: field('after_run', true, 'after run', ...runWords),
  mark: field('mark_m', true, 'mark', 'cable mark'),
  counter: field('counter_m', true, 'counter', 'counter reading'),
  sd: field('sd_m', false, 'sd', 'sigma', 'standard deviation'),
};

/** One centimetre where the file says none: common practice, no source. */
const CHECK_SD = 0.01;

/** The counter held against marks of the cable. */
export const readCableChecks = (file: NamedBytes, runs: KnownRuns) => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, checkFields, ['mark', 'counter', 'sd']);
  const readings: CableCheck[] = table.rows.map((row) => ({
    id: `check line ${row.line}`,
    afterRun: knownRun(table, row, columns.run!, runs),
    mark: needed(depthIn(table, row, columns.mark), table, row, columns.mark!, 'mark'),
    counter: needed(depthIn(table, row, columns.counter), table, row, columns.counter!, 'counter reading'),
    sd: sdIn(table, row, columns.sd, 'A mark and its reading are good to 1 cm as a rule.') ?? CHECK_SD,
  }));
  return { columns, readings };
};

export const zeroFields = {
  zero: field('zero', true, 'zero', 'name'),
  run: field('from_run', true, 'from run', ...runWords),
  height: field('height_m', true, 'height', 'height above first zero'),
  sd: field('sd_m', true, 'sd', 'sigma', 'standard deviation'),
};

/** Zeros of the hole, each from the run that first counted from it; heights above the first. */
export const readZeros = (file: NamedBytes, runs: KnownRuns) => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, zeroFields, ['height', 'sd']);
  const readings: ZeroReading[] = table.rows.map((row) => ({
    id: named(table, row, columns.zero!, 'zero'),
    fromRun: knownRun(table, row, columns.run!, runs),
    height: needed(metresIn(table, row, columns.height), table, row, columns.height!, 'height'),
    sd: needed(
      sdIn(table, row, columns.sd, 'Of a height by tape 1 cm is usual.'),
      table,
      row,
      columns.sd!,
      'standard deviation',
    ),
  }));
  return { columns, readings };
};

const strainFields = {
  depth: field('depth_m', true, 'depth'),
  rate: field('strain_rate_per_year', true, 'strain rate per year', 'strain rate'),
};

/** How fast the firn shortens, over depth. */
export const readStrain = (file: NamedBytes): StrainTable => {
  const table = readTable(file.bytes, file.name);
  const columns = findColumns(table, strainFields, ['depth']);
  if (table.rows.length === 0) throw noRows(table, 'depths');
  const depth: number[] = [];
  const rate: number[] = [];
  for (const row of table.rows) {
    const at = needed(depthIn(table, row, columns.depth), table, row, columns.depth!, 'depth');
    if (at <= (depth.at(-1) ?? -1))
      throw cellError(table, row, columns.depth!, 'the depths do not go down', 'Sort the lines by depth.');
    depth.push(at);
    rate.push(needed(printedIn(table, row, columns.rate), table, row, columns.rate!, 'strain rate').value);
  }
  return { depth, rate };
};
