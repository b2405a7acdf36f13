import { convertedSentence, sayEnglish, scalesOfHole } from '@firnbook/campaign';
import { readNumber, writeScales } from '@firnbook/exchange';
import { conversion, type ScaleOfHole, scaleName, verticalPieces } from '@firnbook/science/depth-scales';
import { Command } from 'commander';
import { type DepthSource, depthSource, type SourceOptions } from '../depth-source.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { writeTogether } from '../write-together.ts';

interface Options extends SourceOptions {
  readonly out?: string;
  readonly depth?: string;
  readonly sd?: string;
  readonly from?: string;
  readonly to?: string;
  readonly as: string;
}

const example = `
Scales: driller (the counter), logger (lengths and gaps as logged, added up), solved (from all readings).
Input as for firnbook depths. Output in DIR:
  scales.csv    hole,run,piece,end,driller_m,logger_m,solved_NAME_m,solved_NAME_sd_m,lost_above_m
One row for the top and one for the bottom of every piece; from a hole in the book whose direction was measured also
vertical_m,vertical_sd_m.

firnbook scales --campaign "Ceredin Saddle" --hole B --out scales
One depth instead of the table, and what it falls into:
firnbook scales --campaign "Ceredin Saddle" --hole B --depth 12.30 --from logger --to solved
`;

/** All depth scales of a hole side by side, or one depth taken from one scale to another. */
export const scalesCommand = (terminal: Terminal): Command =>
  new Command('scales')
    .description('convert between the depth scales of a hole: driller, logger, solved')
    .option('--runs <file>', 'table of runs')
    .option('--pieces <file>', 'table of pieces')
    .option('--soundings <file>', 'table of soundings')
    .option('--campaign <name>', 'take the readings from the book')
    .option('--hole <name>', 'hole of that campaign; the name of the hole where the readings are files')
    .option('--as <version>', 'what this state of the solved scale is called', 'now')
    .option('--out <folder>', 'where scales.csv is written')
    .option('--depth <metres>', 'convert this depth')
    .option('--sd <metres>', 'with --depth: its standard deviation, 0 where it is left out')
    .option('--from <scale>', 'with --depth: the scale that it is on')
    .option('--to <scale>', 'with --depth: the scale that it is wanted on')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (options: Options) => {
      const { out, depth } = options;
      if (out === undefined && depth === undefined)
        throw new CommandError(
          'there is nothing to do',
          'firnbook scales',
          'Give --out FOLDER for the table, or --depth METRES --from SCALE --to SCALE for one depth.',
        );
      const source = await depthSource(options, {}, terminal);
      const scales = scalesOfHole(source.hole, source.readings, source.solution, options.as);
      for (const remark of remarks(scales, source)) terminal.err(`${remark}\n`);
      if (depth !== undefined) terminal.out(`${converted(scales, source, options, depth)}\n`);
      if (out === undefined) return;
      const { pieceNames, solution, stations } = source;
      const vertical = stations.length === 0 ? [] : verticalPieces(stations, solution.pieces);
      const paths = writeTogether(out, { 'scales.csv': writeScales(scales, pieceNames, vertical) });
      terminal.out(`Written: ${paths.join(', ')}\n`);
    });

/** What a person has to know about the scales themselves. */
const remarks = (scales: readonly ScaleOfHole[], { names }: DepthSource): readonly string[] => {
  const called = (ids: readonly string[]) => ids.map((id) => names.get(id) ?? id).join(', ');
  return scales.flatMap(({ scale, leftOut, filled, endsAt }) => {
    const name = scaleName(scale);
    return [
      ...(leftOut.length > 0
        ? [
            `The scale "${name}" leaves out the counter of ${called(leftOut)}: it does not fit, or it went back.`,
          ]
        : []),
      ...(filled.length > 0
        ? [`The scale "${name}" takes the length of ${called(filled)} from the counter: it was not measured.`]
        : []),
      ...(endsAt === null
        ? []
        : [`The scale "${name}" ends at ${called([endsAt])}: nothing says how long it is.`]),
    ];
  });
};

const converted = (
  scales: readonly ScaleOfHole[],
  { hole, names }: DepthSource,
  options: Options,
  text: string,
): string => {
  const from = scaleCalled(scales, options.from, '--from');
  const to = scaleCalled(scales, options.to, '--to');
  const given = {
    hole,
    scale: from.scale,
    value: metresOf(text, '--depth'),
    sd: options.sd === undefined ? 0 : Math.abs(metresOf(options.sd, '--sd')),
  };
  return sayEnglish(convertedSentence(given, conversion(from, to)(given), (id) => names.get(id) ?? id));
};

const scaleCalled = (
  scales: readonly ScaleOfHole[],
  said: string | undefined,
  option: string,
): ScaleOfHole => {
  const found = scales.find(({ scale }) => scale.name === said || scaleName(scale) === said);
  if (found !== undefined) return found;
  throw new CommandError(
    said === undefined ? 'a depth needs its scale' : `there is no scale "${said}"`,
    option,
    `There are: ${scales.map(({ scale }) => scale.name).join(', ')}.`,
  );
};

const metresOf = (text: string, option: string): number => {
  const number = readNumber(text);
  if (number === null)
    throw new CommandError(`"${text}" is no depth`, option, 'Write metres, for example 12.30.');
  return number.value;
};
