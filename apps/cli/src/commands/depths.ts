import { readFileSync } from 'node:fs';
import {
  type NamedBytes,
  type ReadingsTables,
  readDepthFiles,
  readNumber,
  writeDepths,
  writeFindings,
} from '@firnbook/exchange';
import { type DepthAssumptions, defaultAssumptions, solveDepths } from '@firnbook/science/depth';
import { Command } from 'commander';
import { solveBook } from '../book-depths.ts';
import { depthSummary } from '../depth-summary.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { writeTogether } from '../write-together.ts';

interface Options {
  readonly runs?: string;
  readonly pieces?: string;
  readonly soundings?: string;
  readonly out?: string;
  readonly assume?: readonly string[];
  readonly campaign?: string;
  readonly hole?: string;
  readonly data?: string;
  readonly readings?: boolean;
}

const example = `
Input (comma or point; other units in the header, like length_cm):
  runs       run,depth_from_m,depth_to_m             driller's depths; a cell may be empty
  pieces     run,piece,length_m,top_break,loss_m     top_break: fits, loss, unsure (also handling, ground, spun, sawn)
  soundings  after_run,hole_depth_m,sd_m
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
With --readings the three tables are written beside; solved from these, the numbers are the same.
`;

/** One-shot depth solution of files, or of a hole in the book. */
export const depthsCommand = (terminal: Terminal): Command =>
  new Command('depths')
    .description('solve the depth of every piece from runs, pieces and soundings')
    .option('--runs <file>', 'table of runs')
    .option('--pieces <file>', 'table of pieces')
    .option('--soundings <file>', 'table of soundings')
    .option('--out <folder>', 'where depths.csv and findings.csv are written')
    .option(
      '--assume <name=value>',
      'another assumption than the default, metres or a ratio; may be repeated',
      (value: string, before: readonly string[] = []) => [...before, value],
    )
    .option('--campaign <name>', 'take the readings from the book')
    .option('--hole <letter>', 'hole of that campaign, where it has several')
    .option('--readings', 'with --campaign: also write the readings, as runs.csv, pieces.csv, soundings.csv')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (options: Options) => {
      const assumptions = assumed(options.assume ?? []);
      const { out } = options;
      if (out === undefined)
        throw new CommandError('there is no place for the results', '--out', 'Give --out FOLDER.');
      const solved =
        options.campaign === undefined
          ? fromFiles(options, assumptions, terminal)
          : await solveBook(options.campaign, options, assumptions, terminal);
      const paths = writeTogether(out, {
        'depths.csv': solved.depths,
        'findings.csv': solved.findings,
        ...(options.readings && solved.readings !== null && readingsFiles(solved.readings)),
      });
      terminal.out(`${solved.summary}Written: ${paths.join(', ')}\n`);
    });

const fromFiles = (options: Options, assumptions: DepthAssumptions, terminal: Terminal) => {
  const { runs, pieces, soundings } = options;
  if (runs === undefined || pieces === undefined)
    throw new CommandError(
      'depths needs the runs and the pieces',
      'firnbook depths',
      'Give --runs FILE and --pieces FILE, or --campaign NAME to take them from the book.',
    );
  const named = (name: string): NamedBytes => {
    terminal.err(`Reading ${name} ...\n`);
    return { name, bytes: readFileSync(name) };
  };
  const files = readDepthFiles({
    runs: named(runs),
    pieces: named(pieces),
    ...(soundings !== undefined && { soundings: named(soundings) }),
  });
  for (const remark of files.remarks) terminal.err(`${remark}\n`);
  const { readings, written, headers } = files;
  terminal.err(`Solving ${readings.runs.length} runs, ${readings.pieces.length} pieces ...\n`);
  const solution = solveDepths(readings, assumptions);
  const names = {
    which: ({ what, which }: { what: 'run' | 'piece' | 'sounding'; which: string }) =>
      written[what].get(which) ?? which,
    field: (field: keyof typeof headers) => headers[field],
  };
  return {
    depths: writeDepths(solution, files.pieceNames),
    findings: writeFindings(solution.findings, names),
    summary: depthSummary(solution, names.which),
    readings: null,
  };
};

const readingsFiles = ({ runs, pieces, soundings }: ReadingsTables) => ({
  'runs.csv': runs,
  'pieces.csv': pieces,
  'soundings.csv': soundings,
});

const assumed = (words: readonly string[]): DepthAssumptions => {
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
  return { ...defaultAssumptions, ...changed };
};
