import type { RunReading } from '@firnbook/science/depth';
import { cell, cellError, findColumns, printedIn } from '../columns.ts';
import type { Table } from '../table.ts';
import { byNumber, depthIn, extentIn, named, noRows, runKey, sdIn, wordIn } from './cells.ts';
import { field, runWords } from './fields.ts';

export const runFields = {
  run: field('run', true, ...runWords, 'no', 'nr', 'number', '#'),
  from: field(
    'depth_from_m',
    true,
    'depth from',
    'from',
    'from depth',
    'depth start',
    'start depth',
    'depth top',
    'top',
  ),
  to: field(
    'depth_to_m',
    true,
    'depth to',
    'to',
    'to depth',
    'depth end',
    'end depth',
    'depth bottom',
    'bottom',
  ),
  stub: field('stub_m', false, 'stub', 'left in hole', 'left in the hole'),
  stubSd: field('stub_sd_m', false, 'stub sd'),
  barrel: field('barrel_m', false, 'barrel', 'barrel length'),
  catcher: field('catcher_height_m', false, 'catcher height'),
  counter: field('counter', false, 'counter'),
  zero: field('zero', false, 'zero'),
  hours: field('hours', false, 'hours', 'hours since start', 'time h'),
};

/** Of a stub that somebody judged, where the file gives no standard deviation: common practice, no source. */
const STUB_SD = 0.02;
const STUB_SHARE = 0.25;
const HOUR = 3_600_000;

/** The table of runs: run, depth_from_m, depth_to_m; the rest may be left out. */
export const readRuns = (table: Table) => {
  const columns = findColumns(table, runFields, ['from', 'to', 'stub', 'stubSd', 'barrel', 'catcher']);
  const lines = new Map<string, number>();
  const written = new Map<string, string>();
  const readings: RunReading[] = [];
  for (const row of table.rows) {
    const run = named(table, row, columns.run!, 'run');
    const key = runKey(run);
    const before = lines.get(key);
    if (before !== undefined)
      throw cellError(
        table,
        row,
        columns.run!,
        `run ${run} is there already, in line ${before}`,
        'Give each run one line; renumber or remove one of the two.',
      );
    lines.set(key, row.line);
    written.set(key, run);
    const from = depthIn(table, row, columns.from);
    const to = depthIn(table, row, columns.to);
    const stub = extentIn(table, row, columns.stub, 'a stub');
    const stubSd = sdIn(table, row, columns.stubSd, 'Of a judged stub 0.02 m and a quarter of it are usual.');
    const barrelLength = extentIn(table, row, columns.barrel, 'a barrel');
    const catcherHeight = extentIn(table, row, columns.catcher, 'a catcher height');
    const counter = wordIn(table, row, columns.counter, ['zeroed', 'not zeroed']);
    const zero = cell(row, columns.zero);
    const hours = printedIn(table, row, columns.hours);
    readings.push({
      id: key,
      ...(from !== null && { from }),
      ...(to !== null && { to }),
      ...(counter === 'not zeroed' && { resets: false }),
      ...(barrelLength !== null && { barrelLength }),
      ...(catcherHeight !== null && { catcherHeight }),
      ...(stub !== null && { leftInHole: { value: stub, sd: stubSd ?? STUB_SD + STUB_SHARE * stub } }),
      ...(zero !== '' && { zero }),
      ...(hours !== null && { epoch: Math.round(hours.value * HOUR) }),
    });
  }
  if (readings.length === 0) throw noRows(table, 'runs');
  return { columns, lines, written, readings: byNumber(readings, (run) => run.id) };
};
