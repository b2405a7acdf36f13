import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { changeOrder, comparison, movedSentence, sayEnglish } from '@firnbook/campaign';
import { readVersion, type VersionFile, writeMovements } from '@firnbook/exchange';
import { type DepthDifference, diff, type Solved, solvedNow } from '@firnbook/science/depth-scales';
import { Command } from 'commander';
import { existingDataFolder } from '../data-folder.ts';
import { type DepthSource, depthSource, type SourceOptions } from '../depth-source.ts';
import { openDesk } from '../desk.ts';
import { findCampaign, findHoleOf } from '../find-in-book.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { versionFromBook } from '../version-in-book.ts';
import { writeTogether } from '../write-together.ts';

interface Options extends Pick<SourceOptions, 'campaign' | 'hole' | 'data'> {
  readonly out?: string;
}

const example = `
A and B are each a folder or a file: version.json as firnbook depths --as NAME writes it, or a folder with runs.csv,
pieces.csv and (if there are any) soundings.csv. With --campaign NAME they may be names of versions that were signed
off (firnbook sign-off), and without B the hole is taken as it is now.
Every change between the two is made alone, in order, and the hole solved again: each answers for what moved then.
Output in DIR:
  movements.csv   run,piece,top_moved_m,bottom_moved_m,because    down is positive; pieces that are in both

firnbook compare-depths solved-monday solved-tuesday --out moved
firnbook compare-depths solved-monday --campaign "Ceredin Saddle" --hole B
firnbook compare-depths v1 --campaign "Ceredin Saddle" --hole B
firnbook compare-depths v1 v2 --campaign "Ceredin Saddle" --hole B
`;

/** Pieces told one by one; the rest is in the file. */
const MOST = 10;

/** One of the two states. */
interface State extends Pick<DepthSource, 'names' | 'pieceNames' | 'rank'> {
  readonly solved: Solved;
  readonly called: string;
}

/** What moved between two states of a hole's depths, and why. */
export const compareDepthsCommand = (terminal: Terminal): Command =>
  new Command('compare-depths')
    .description('say which pieces moved between two states of the depths, and because of which readings')
    .argument('<before>', 'version.json, a folder with it or with the readings, or a version of the book')
    .argument('[after]', 'the same; without it a hole in the book')
    .option('--campaign <name>', 'campaign whose versions are named; without <after> its hole as it is now')
    .option('--hole <letter>', 'hole of that campaign, where it has several')
    .option('--out <folder>', 'where movements.csv is written')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (first: string, second: string | undefined, options: Options) => {
      if (second === undefined && options.campaign === undefined)
        throw new CommandError(
          'there must be two states to compare',
          'firnbook compare-depths',
          'Name two folders, or one and --campaign NAME.',
        );
      const before = await stateIn(first, options, terminal);
      const after =
        second === undefined
          ? inBook(await depthSource(options, {}, terminal))
          : await stateIn(second, options, terminal);
      terminal.err(`Comparing ${before.called} with ${after.called} ...\n`);
      const difference = diff(before.solved, after.solved, after.rank);
      if (difference.moved.length === 0)
        throw new CommandError(
          'the two have no piece in common',
          `${first} and ${after.called}`,
          'Compare two states of one hole, both from files or both from the book.',
        );
      const nameOf = (id: string) => after.names.get(id) ?? before.names.get(id) ?? id;
      terminal.out(told(difference, nameOf));
      if (options.out === undefined) return;
      const because = difference.moved.map((one) =>
        sayEnglish(movedSentence(one, difference.changes, nameOf)),
      );
      const paths = writeTogether(options.out, {
        'movements.csv': writeMovements(difference, after.pieceNames, because),
      });
      terminal.out(`Written: ${paths.join(', ')}\n`);
    });

const told = (difference: DepthDifference, nameOf: (id: string) => string): string => {
  const { changes, common, moved, appeared, gone } = comparison(difference, nameOf);
  const lines = [
    changes.length === 0
      ? 'Nothing was changed.'
      : `${changes.length} ${changes.length === 1 ? 'change' : 'changes'}: ${changes.map((one) => sayEnglish(one)).join('; ')}.`,
    `${moved.length} of ${common} pieces moved by half a millimetre or more.`,
    ...moved.slice(0, MOST).map(({ says }) => sayEnglish(says)),
    ...(moved.length > MOST ? [`... and ${moved.length - MOST} more`] : []),
    ...(appeared.length > 0 ? [`New: ${appeared.join(', ')}.`] : []),
    ...(gone.length > 0 ? [`Gone: ${gone.join(', ')}.`] : []),
  ];
  return `${lines.join('\n')}\n`;
};

const inBook = ({ readings, solution, names, pieceNames, rank, hole }: DepthSource): State => ({
  solved: solvedNow(readings, solution),
  names,
  pieceNames,
  rank,
  called: `${hole} as it is now`,
});

const stateIn = async (path: string, options: Options, terminal: Terminal): Promise<State> => {
  const there = statSync(path, { throwIfNoEntry: false });
  if (there === undefined && options.campaign !== undefined)
    return stateCalled(path, options.campaign, options, terminal);
  const isFolder = there?.isDirectory() ?? false;
  const file = isFolder ? join(path, 'version.json') : path;
  if (!isFolder || statSync(file, { throwIfNoEntry: false }) !== undefined)
    return kept(readVersion({ name: file, bytes: readFileSync(file) }));
  const soundings = join(path, 'soundings.csv');
  const source = await depthSource(
    {
      runs: join(path, 'runs.csv'),
      pieces: join(path, 'pieces.csv'),
      ...(statSync(soundings, { throwIfNoEntry: false }) !== undefined && { soundings }),
    },
    {},
    terminal,
  );
  return { ...inBook(source), called: path };
};

/** A version that was signed off in the book. */
const stateCalled = async (
  name: string,
  campaign: string,
  options: Options,
  terminal: Terminal,
): Promise<State> => {
  const desk = await openDesk(existingDataFolder(options.data, terminal));
  try {
    const opened = await findCampaign(desk, campaign);
    const hole = findHoleOf(opened.book.view().holes, options.hole, campaign);
    return {
      ...kept(await versionFromBook(desk, opened, hole, name)),
      rank: changeOrder(hole),
    };
  } finally {
    await desk.close();
  }
};

const kept = ({ version, names }: VersionFile): State => {
  const called = (id: string) => names.get(id) ?? id;
  const pieceNames = new Map(
    version.pieces.map(({ id, run }) => [id, { run: called(run), piece: called(id) }] as const),
  );
  return { solved: version, names, pieceNames, rank: () => 0, called: `${version.hole} ${version.name}` };
};
