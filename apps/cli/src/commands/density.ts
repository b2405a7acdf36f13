import { readFileSync } from 'node:fs';
import {
  fixed,
  type ReadDensityFile,
  readDensityFile,
  withDepths,
  writeBins,
  writeDensities,
  writeProfile,
  writeWater,
} from '@firnbook/exchange';
import {
  type CoreDensity,
  coreDensity,
  coreWater,
  type DensityAssumptions,
  defaultDensityAssumptions,
  densityBins,
  type WaterScale,
  type WaterStart,
} from '@firnbook/science/density';
import { QuantityError } from '@firnbook/science/quantity-error';
import { Command } from 'commander';
import { numberOption } from '../number-option.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { writeTogether } from '../write-together.ts';

interface Options {
  readonly pieces?: string;
  readonly depths?: string;
  readonly profile?: boolean;
  readonly reach?: string;
  readonly step?: string;
  readonly fromDepth?: string;
  readonly fromWe?: string;
  readonly fromSd?: string;
  readonly out?: string;
  readonly assume?: readonly string[];
}

const example = `
Input (comma or point; g or kg in the headers of masses, any unit of length in the others; empty cells are readings
that were not taken):
  pieces   run,piece,mass_g,tare_g,length_cm,diameter_mm
           and where there are such columns: top_m,bottom_m; length_2_cm, diameter_2_mm, ... (more readings);
           diameter_across_mm (elliptic core); sawn_ends (none, one, both); sawn_off_mm (between measuring and
           weighing, kerf included); wedge_depth_mm,wedge_length_mm,wedge_kind (end: a corner broken off, side: a
           strip along the core); missing_percent (of the volume, judged by eye); cutter_set; temperature_C
  depths   run,piece,top_m,bottom_m, as "firnbook depths" writes them; counts instead of the depths in pieces
Output in DIR:
  density.csv  density and water equivalent of every piece with random and shared standard deviations (shared: the
               diameter error of its cutter set, which doesn't average out); flag, and the reading that is likely wrong
  profile.csv  with --profile: smooth density every --step metres, with its 95 % band
  bins.csv     with --profile: means per metre
  we.csv       with --profile: cumulative water equivalent at every end of a piece; gaps filled from the profile
All are written whole or not at all. Flagged pieces are kept in all sums. The exit code is 0 also with flags, 2 when
the input cannot be used.

Example: pieces.csv
  run,piece,mass_g,tare_g,length_cm,diameter_mm,top_m,bottom_m
  1,1,2650,152,75.0,98.1,0.00,0.75
  2,1,2918,152,78.2,98.0,0.76,1.54
  3,1,3021,152,77.0,98.3,1.55,2.32
firnbook density --pieces pieces.csv --profile --out densities
`;

/** One-shot density, profile and water equivalent of weighed pieces. */
export const densityCommand = (terminal: Terminal): Command =>
  new Command('density')
    .description('density, smooth profile and water equivalent of weighed pieces')
    .option('--pieces <file>', 'table of pieces with masses, lengths, diameters')
    .option('--depths <file>', 'table of solved depths of the pieces')
    .option('--profile', 'also the profile over depth, means per metre, and water equivalent')
    .option(
      '--reach <metres>',
      'how far the smooth curve looks to either side; found from the data if not given',
    )
    .option('--step <metres>', 'distance of the depths in profile.csv', '0.5')
    .option(
      '--from-depth <metres>',
      'depth above which the water equivalent is known otherwise (a pit), with --from-we',
    )
    .option('--from-we <metres>', 'water equivalent above that depth')
    .option('--from-sd <metres>', 'its standard deviation', '0')
    .option('--out <folder>', 'where the results are written')
    .option(
      '--assume <name=value>',
      'another assumption than the default: kg, m, K or a ratio; may be repeated',
      (value: string, before: readonly string[] = []) => [...before, value],
    )
    .addHelpText('after', example)
    .action((options: Options) => {
      const { out, pieces } = options;
      if (pieces === undefined)
        throw new CommandError('there are no pieces', 'firnbook density', 'Give --pieces FILE.');
      if (out === undefined)
        throw new CommandError('there is no place for the results', '--out', 'Give --out FOLDER.');
      const read = readInput(pieces, options.depths);
      for (const remark of read.remarks) terminal.err(`${remark}\n`);
      const reach = numberOption('--reach', options.reach, 'metres, for example 5');
      const step = numberOption('--step', options.step, 'metres, for example 0.5')!;
      if (!(step >= 0.001))
        throw new CommandError(`"${options.step}" is no step`, '--step', 'Give 0.001 m or more.');
      const start = startOf(options);
      const core = placing(read, () => coreDensity(read.pieces, assumed(options.assume ?? []), reach));
      const files: Record<string, string> = { 'density.csv': writeDensities(core, read.names) };
      let water: WaterScale | null = null;
      if (options.profile) {
        const { profile } = core;
        if (profile === null)
          throw new CommandError(
            'fewer than two pieces have a density and a depth: there is no profile',
            pieces,
            'Add the columns top_m and bottom_m, or give --depths FILE.',
          );
        water = placing(read, () => coreWater(core, start));
        files['profile.csv'] = writeProfile(profile, step);
        files['bins.csv'] = writeBins(densityBins(profile.pieces, 1));
        files['we.csv'] = writeWater(water!);
      }
      const paths = writeTogether(out, files);
      terminal.out(`${summary(core, water, read)}Written: ${paths.join(', ')}\n`);
    });

const readInput = (pieces: string, depths: string | undefined): ReadDensityFile => {
  const read = readDensityFile({ name: pieces, bytes: readFileSync(pieces) });
  return depths === undefined ? read : withDepths(read, { name: depths, bytes: readFileSync(depths) });
};

/** Runs a computation; what it refuses is told with the place in the file. */
const placing = <T>(read: ReadDensityFile, compute: () => T): T => {
  try {
    return compute();
  } catch (error) {
    throw error instanceof QuantityError && error.where.startsWith('piece ') ? read.placed(error) : error;
  }
};

const startOf = ({ fromDepth, fromWe, fromSd }: Options): WaterStart | undefined => {
  if (fromDepth === undefined && fromWe === undefined) return undefined;
  const depth = numberOption('--from-depth', fromDepth, 'the depth in metres, and --from-we');
  const waterEquivalent = numberOption(
    '--from-we',
    fromWe,
    'the water equivalent in metres, and --from-depth',
  );
  const sd = numberOption('--from-sd', fromSd, 'metres, for example 0.02') ?? 0;
  if (
    depth === undefined ||
    waterEquivalent === undefined ||
    !(depth >= 0 && waterEquivalent >= 0 && sd >= 0)
  )
    throw new CommandError(
      'what is known above needs a depth and its water equivalent, 0 or more',
      '--from-depth',
      'Give --from-depth METRES and --from-we METRES, for example 2.10 and 0.87.',
    );
  return { depth, waterEquivalent, sd };
};

const assumed = (words: readonly string[]): DensityAssumptions => {
  const changed: Record<string, number> = {};
  for (const word of words) {
    const [name = '', text = ''] = word.split('=', 2);
    const value =
      name in defaultDensityAssumptions ? numberOption('--assume', text, 'NAME=VALUE') : undefined;
    if (value === undefined || !(value >= 0))
      throw new CommandError(
        `"${word}" is no assumption`,
        '--assume',
        `Write NAME=VALUE, for example sharedDiameterSd=0.0003. Names: ${Object.keys(defaultDensityAssumptions).join(', ')}.`,
      );
    changed[name] = value;
  }
  return { ...defaultDensityAssumptions, ...changed };
};

/** Flags told one by one; the rest is in the file. */
const most = 10;

const summary = (core: CoreDensity, water: WaterScale | null, read: ReadDensityFile): string => {
  const flagged = core.pieces.filter(({ flag }) => flag !== null);
  const known = core.pieces.filter(({ result }) => result !== null).length;
  const lines = [
    `${core.pieces.length} pieces, ${known} with a density.`,
    ...[...core.sets.values()].map(
      ({ name, mean, readings, pieceSd, readingSd, sharedSd }) =>
        `Cutter set ${name === '' ? '(not named)' : name}: ${readings} diameters, mean ${fixed(1000 * mean, 2)} mm; ${fixed(1000 * readingSd, 2)} mm a reading, ${fixed(1000 * pieceSd, 2)} mm between pieces, ${fixed(1000 * sharedSd, 2)} mm shared.`,
    ),
    ...(core.profile === null
      ? []
      : [
          `Profile from ${fixed(core.profile.top, 2)} m to ${fixed(core.profile.bottom, 2)} m: reach ${fixed(core.profile.reach, 1)} m${core.profile.isReachGiven ? '' : ', found from the data'}; firn scatters ${fixed(core.profile.scatter, 1)} kg/m3 about it.`,
        ]),
    ...(water === null ? [] : [waterLine(water)]),
    flagged.length === 0
      ? 'No density is odd.'
      : `${flagged.length} ${flagged.length === 1 ? 'density is' : 'densities are'} odd (kept in all sums):`,
    ...flagged.slice(0, most).map(({ id, result, flag }) => {
      const slip = flag!.slips[0];
      const look =
        slip === undefined
          ? 'no single slip explains it'
          : `look at the ${slip.reading}: ${slip.slip} (probability ${fixed(slip.probability, 2)})`;
      return `  piece ${id}: ${fixed(result!.density.value, 0)} kg/m3, ${flag!.what} by ${fixed(Math.abs(flag!.by), 1)} standard deviations; ${look}`;
    }),
    ...(flagged.length > most ? [`  ... and ${flagged.length - most} more`] : []),
    ...(read.isPlaced ? [] : ['Pieces without a depth are in density.csv only.']),
    `Assumed: ${Object.entries(core.assumptions)
      .map(([name, value]) => `${name} ${value}`)
      .join(', ')}.`,
  ];
  return `${lines.join('\n')}\n`;
};

const waterLine = (water: WaterScale): string => {
  const { depth, value, randomSd, sharedSd } = water.nodes.at(-1)!;
  return `Water equivalent down to ${fixed(depth, 2)} m: ${fixed(value, 3)} m, random ${fixed(randomSd, 3)} m, shared ${fixed(sharedSd, 3)} m; ${fixed(100 * water.weighed, 1)} % of the way weighed, the rest filled from the profile.`;
};
