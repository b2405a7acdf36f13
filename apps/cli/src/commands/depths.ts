import { depthVersion, sayEnglish, verdictSentences } from '@firnbook/campaign';
import {
  type ReadingsTables,
  readNumber,
  writeDepths,
  writeFindings,
  writeVersion,
} from '@firnbook/exchange';
import { type DepthAssumptions, defaultAssumptions } from '@firnbook/science/depth';
import { verdict } from '@firnbook/science/depth-scales';
import { Command } from 'commander';
import { type DepthSource, depthSource, type SourceOptions } from '../depth-source.ts';
import { depthSummary } from '../depth-summary.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { writeTogether } from '../write-together.ts';

interface Options extends SourceOptions {
  readonly out?: string;
  readonly assume?: readonly string[];
  readonly readings?: boolean;
  readonly verdict?: boolean;
  readonly barrel?: string;
  readonly as?: string;
}

const example = `
Input (comma or point; other units in the header, like length_cm):
  runs       run,depth_from_m,depth_to_m             driller's depths; a cell may be empty
             and where there are any: stub_m, stub_sd_m, barrel_m, catcher_height_m, counter (zeroed, not zeroed), zero, hours
  pieces     run,piece,length_m,top_break,loss_m     top_break: fits, ground, loss, unsure, sawn, handling
             and where there are any: kerf_m, ice (in place, crumbled, wall snow, chip plug, milled), order (sure, unsure),
             temperature_c, judged_length_m, judged_length_sd_m, catcher_mark_m, catcher_run, tray_top_m, tray_bottom_m
  soundings  after_run,hole_depth_m,sd_m
  cable-checks  after_run,mark_m,counter_m,sd_m      the counter at marks of the cable
  zeros      zero,from_run,height_m,sd_m             heights above the first zero
  strain     depth_m,strain_rate_per_year            how fast the firn shortens; with hours in runs
Output in DIR:
  depths.csv    run,piece,top_m,top_sd_m,top_min_m,top_max_m,bottom_m,bottom_sd_m,bottom_min_m,bottom_max_m
  findings.csv  what,which,field,size_m,likely,probability    readings that do not fit; the header alone if all do
Both are written whole or not at all. The exit code is 0 also with findings, 2 when the input cannot be used.

Example: runs.csv            pieces.csv
  run,depth_from_m,depth_to_m   run,piece,length_m,top_break,loss_m
  1,0.00,0.98                   1,1,0.952,unsure,
  2,0.98,1.95                   2,1,0.531,fits,
                                2,2,0.428,loss,0.01
firnbook depths --runs runs.csv --pieces pieces.csv --out solved

From the book instead of files: firnbook depths --campaign "Ceredin Saddle" --hole B --out solved
With --readings these tables are written beside; solved from these, the numbers are the same.

With --verdict the bench is told of the last run: what closes, what to measure again, the longest next run, the check
that would help most. With --as NAME everything is also kept as a version (version.json), for firnbook compare-depths.
`;

/** One-shot depth solution of files, or of a hole in the book. */
export const depthsCommand = (terminal: Terminal): Command =>
  new Command('depths')
    .description('solve the depth of every piece from runs, pieces and soundings')
    .option('--runs <file>', 'table of runs')
    .option('--pieces <file>', 'table of pieces')
    .option('--soundings <file>', 'table of soundings')
    .option('--cable-checks <file>', 'table of counter readings at marks of the cable')
    .option('--zeros <file>', 'table of zeros and their heights')
    .option('--strain <file>', 'table of strain rates of the firn')
    .option('--out <folder>', 'where depths.csv and findings.csv are written')
    .option(
      '--assume <name=value>',
      'another assumption than the default, metres or a ratio; may be repeated',
      (value: string, before: readonly string[] = []) => [...before, value],
    )
    .option('--campaign <name>', 'take the readings from the book')
    .option('--hole <letter>', 'hole of that campaign, where it has several')
    .option('--readings', 'with --campaign: also write the readings as such tables')
    .option('--verdict', 'also say what closes after the last run, and what to check next')
    .option('--barrel <metres>', 'with --verdict: longest core that the barrel holds')
    .option('--as <name>', 'also keep this state as a version of that name, as version.json')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (options: Options) => {
      const changed = assumed(options.assume ?? []);
      const barrel = options.barrel === undefined ? undefined : metresOf(options.barrel);
      const { out } = options;
      if (out === undefined)
        throw new CommandError('there is no place for the results', '--out', 'Give --out FOLDER.');
      const source = await depthSource(options, changed, terminal);
      const { solution, tables, findingNames } = source;
      const paths = writeTogether(out, {
        'depths.csv': writeDepths(
          solution,
          solution.pieces.map(({ id }) => source.pieceNames.get(id)!),
        ),
        'findings.csv': writeFindings(solution.findings, findingNames),
        ...(options.readings && tables !== null && readingsFiles(tables)),
        ...(options.as !== undefined && { 'version.json': versionFile(options.as, source) }),
      });
      const told = options.verdict ? verdictLines(source, barrel) : '';
      terminal.out(`${depthSummary(solution, findingNames.which)}${told}Written: ${paths.join(', ')}\n`);
    });

const verdictLines = ({ readings, solution, names }: DepthSource, barrel: number | undefined): string => {
  const found = verdict(readings, solution, barrel);
  if (found === null) return 'There is no run yet.\n';
  return verdictSentences(found, (id) => names.get(id) ?? id)
    .map((one) => `${sayEnglish(one)}\n`)
    .join('');
};

const versionFile = (name: string, source: DepthSource): string => {
  const { hole, readings, solution, entries, names } = source;
  return writeVersion({ version: depthVersion(name, hole, readings, solution, entries), names });
};

const metresOf = (text: string): number => {
  const value = readNumber(text)?.value ?? Number.NaN;
  if (!(value > 0))
    throw new CommandError(`"${text}" is no length`, '--barrel', 'Write metres, for example --barrel 1.00.');
  return value;
};

const readingsFiles = ({ runs, pieces, soundings, cableChecks, zeros, strain }: ReadingsTables) => ({
  'runs.csv': runs,
  'pieces.csv': pieces,
  'soundings.csv': soundings,
  ...(cableChecks !== null && { 'cable-checks.csv': cableChecks }),
  ...(zeros !== null && { 'zeros.csv': zeros }),
  ...(strain !== null && { 'strain.csv': strain }),
});

const assumed = (words: readonly string[]): Partial<DepthAssumptions> => {
  const changed: Record<string, number> = {};
  for (const word of words) {
    const [name = '', text = ''] = word.split('=', 2);
    const value = readNumber(text)?.value ?? Number.NaN;
    if (!(name in defaultAssumptions) || !(value >= 0))
      throw new CommandError(
        `"${word}" is no assumption`,
        '--assume',
        `Write NAME=VALUE, for example lengthSdIce=0.004. Names: ${Object.keys(defaultAssumptions).join(', ')}.`,
      );
    changed[name] = value;
  }
  return changed;
};
