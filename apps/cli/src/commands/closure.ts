import { readFileSync } from 'node:fs';
import { type CheckedFile, checkIntervalFile, fixed, readNumber, writeTable } from '@firnbook/exchange';
import type { Misfit } from '@firnbook/science/intervals';
import { Command } from 'commander';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

interface Options {
  readonly csv?: boolean;
  readonly top?: string;
  readonly bottom?: string;
  readonly length?: string;
  readonly bag?: string;
  readonly bagLength?: string;
}

const example = `
Columns are found by their headers: top / bottom, from / to, length or thickness, bag, depth; with units in the
header (length_cm, "Depth top [m]", "thickness (mm)"), metres where none is named. Where a column is called
otherwise, name it (or give its number): --top ztop --bottom zbot.

What is reported: gap, overlap, length (not bottom less top), bag (depths are not those of the bag named: bag k
reaches from (k - 1) x L to k x L), reversed, duplicate. Half a unit in the last printed place of every figure is
allowed for, and nothing else.

With --csv: what,line,which,from_m,to_m,size_m,tolerance_m,says
  line is the line in the file; size_m is how long a gap or overlap is, else figure less what it should be.

Example, the file sticks.csv:
  bag,top_m,bottom_m,length_cm
  1,0.00,0.55,55.0
  2,0.55,1.10,52.0
  3,1.14,1.65,51.0
firnbook closure sticks.csv says:
  line 3 (bag 2): length is 3.0 cm too short, from 0.55 m to 1.10 m
  line 4 (bag 3): gap of 4.0 cm from 1.10 m to 1.14 m, after line 3
  line 4 (bag 3): bag 3 would be at 1.10 m, the table says 1.14 m: 4.0 cm deeper
  sticks.csv: 3 rows from 0.00 m to 1.65 m (bags of 0.55 m, found from the table): 1 wrong length, 1 gap, 1 wrong bag interval.

The exit code is 0 also when something was found, 2 when the file cannot be used.
`;

/** One-shot check of any table of depth intervals; needs no book. */
export const closureCommand = (terminal: Terminal): Command =>
  new Command('closure')
    .description('check a table of depth intervals: every gap, overlap, wrong length, wrong bag interval')
    .argument('<file>', 'table with one header line (CSV, tabs, semicolons, or set in columns)')
    .option('--csv', 'one header line and one line per place on stdout')
    .option('--top <column>', 'header or number of the column of upper ends')
    .option('--bottom <column>', 'header or number of the column of lower ends')
    .option('--length <column>', 'header or number of the column of lengths')
    .option('--bag <column>', 'header or number of the column of bag numbers')
    .option('--bag-length <metres>', 'nominal length of a bag; found from the table when not given')
    .addHelpText('after', example)
    .action((file: string, options: Options) => {
      const checked = checkIntervalFile({ name: file, bytes: readFileSync(file) }, wanted(options));
      for (const remark of remarks(checked)) terminal.err(`${remark}\n`);
      terminal.out(options.csv ? csv(checked) : words(file, checked));
    });

const wanted = ({ bagLength, top, bottom, length, bag }: Options) => {
  const columns = {
    ...(top !== undefined && { top }),
    ...(bottom !== undefined && { bottom }),
    ...(length !== undefined && { length }),
    ...(bag !== undefined && { bag }),
  };
  if (bagLength === undefined) return columns;
  const value = readNumber(bagLength)?.value ?? Number.NaN;
  if (!(value > 0))
    throw new CommandError(
      `"${bagLength}" is no length`,
      '--bag-length',
      'Give the nominal length of a bag in metres, for example 0.55.',
    );
  return { ...columns, bagLength: value };
};

const remarks = ({ closure, used, depthIs }: CheckedFile): readonly string[] => [
  `Columns: ${Object.entries(used)
    .map(([part, header]) => `${part} = ${header}`)
    .join(', ')}.`,
  ...(depthIs === null
    ? []
    : [`The depth was taken as the ${depthIs} of each row, which fits the lengths best.`]),
  ...(closure.order === 'as listed'
    ? []
    : [
        closure.order === 'upwards'
          ? 'The table runs upwards; it was read from its end.'
          : 'The rows are not in order of depth; they were sorted first.',
      ]),
  ...(closure.bagLengthUnknown
    ? [
        'The length of a bag could not be found from the table; bag intervals were not checked. Give --bag-length.',
      ]
    : []),
];

const csv = (checked: CheckedFile): string =>
  writeTable(
    ['what', 'line', 'which', 'from_m', 'to_m', 'size_m', 'tolerance_m', 'says'],
    checked.closure.misfits.map((misfit) => [
      misfit.what,
      checked.lines[misfit.row]!,
      checked.labels[misfit.row]!,
      ...[misfit.from, misfit.to, misfit.size, misfit.tolerance].map((value) =>
        value === null ? null : plain(value),
      ),
      says(misfit, checked),
    ]),
  );

/** One line for each place that does not close. */
export const misfitLines = (checked: CheckedFile): readonly string[] =>
  checked.closure.misfits.map((misfit) => {
    const label = checked.labels[misfit.row];
    const which = label ? ` (${thing.test(checked.labelled) ? `${checked.labelled} ` : ''}${label})` : '';
    return `line ${checked.lines[misfit.row]}${which}: ${says(misfit, checked)}`;
  });

const words = (file: string, checked: CheckedFile): string => {
  const { closure, depthDecimals } = checked;
  const places = misfitLines(checked).map((line) => `${line}\n`);
  const counts = new Map<string, number>();
  for (const { what } of closure.misfits) counts.set(what, (counts.get(what) ?? 0) + 1);
  const found =
    counts.size === 0
      ? 'everything closes'
      : [...counts].map(([what, count]) => counted(count, plural[what as Misfit['what']])).join(', ');
  const span =
    closure.top === null
      ? ''
      : ` from ${fixed(closure.top, depthDecimals)} m to ${fixed(closure.bottom!, depthDecimals)} m`;
  const bags =
    closure.bagLength === null
      ? ''
      : ` (bags of ${plain(closure.bagLength.value)} m${closure.bagLength.isGiven ? '' : ', found from the table'})`;
  return `${places.join('')}${file}: ${counted(closure.rows, ['row', 'rows'])}${span}${bags}: ${found}.\n`;
};

/** Headers that say what a row's name is the name of. */
const thing = /^(?:bag|run|piece|sample|layer|core|section|tube)$/;

const plural: Readonly<Record<Misfit['what'], readonly [string, string]>> = {
  gap: ['gap', 'gaps'],
  overlap: ['overlap', 'overlaps'],
  length: ['wrong length', 'wrong lengths'],
  bag: ['wrong bag interval', 'wrong bag intervals'],
  reversed: ['reversed row', 'reversed rows'],
  duplicate: ['duplicate', 'duplicates'],
};

const counted = (count: number, [one, many]: readonly [string, string]): string =>
  `${count} ${count === 1 ? one : many}`;

/** Without the noise of binary fractions, never in exponents. */
const plain = (value: number): number => Number(value.toFixed(9));

const says = (misfit: Misfit, { lines, labels, decimals, depthDecimals }: CheckedFile): string => {
  const depth = (value: number | null) => `${fixed(value ?? 0, depthDecimals)} m`;
  const amount = Math.abs(misfit.size ?? 0);
  const size =
    amount < 1 ? `${fixed(amount * 100, Math.max(decimals - 2, 1))} cm` : `${fixed(amount, decimals)} m`;
  const other = misfit.before === null ? '' : `line ${lines[misfit.before]}`;
  const range = `from ${depth(misfit.from)} to ${depth(misfit.to)}`;
  switch (misfit.what) {
    case 'gap':
      return `gap of ${size} ${range}, after ${other}`;
    case 'overlap':
      return `overlap of ${size} ${range}, with ${other}`;
    case 'length':
      return `length is ${size} too ${misfit.size! < 0 ? 'short' : 'long'}${
        misfit.from === null ? ' for the bags named' : `, ${range}`
      }`;
    case 'bag': {
      const isDeeper = misfit.size! > 0;
      const bag = depth(isDeeper ? misfit.from : misfit.to);
      const figure = depth(isDeeper ? misfit.to : misfit.from);
      const through = misfit.through === undefined ? '' : `, and so down to line ${lines[misfit.through]}`;
      return `bag ${labels[misfit.row]} would be at ${bag}, the table says ${figure}: ${size} ${isDeeper ? 'deeper' : 'higher'}${through}`;
    }
    case 'reversed':
      return `the bottom (${depth(misfit.from)}) lies above the top (${depth(misfit.to)})`;
    case 'duplicate':
      return `says the same as ${other}`;
  }
};
