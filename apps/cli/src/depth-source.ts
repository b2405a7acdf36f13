import { readFileSync } from 'node:fs';
import {
  allCountedTwice,
  type CampaignView,
  changeOrder,
  depthAssumptions,
  depthReadings,
  depthSources,
  findRun,
  type HoleView,
  inclinationStations,
  sayEnglish,
  thingsOf,
} from '@firnbook/campaign';
import {
  type FindingNames,
  type NamedBytes,
  type PieceNames,
  type ReadingsTables,
  readDepthFiles,
  writeReadings,
} from '@firnbook/exchange';
import {
  type DepthAssumptions,
  type DepthReadings,
  type DepthSolution,
  defaultAssumptions,
  solveDepths,
} from '@firnbook/science/depth';
import type { Change, InclinationStation } from '@firnbook/science/depth-scales';
import { solvedHole } from './book-depths.ts';
import { existingDataFolder } from './data-folder.ts';
import { openDesk } from './desk.ts';
import { findCampaign, findHoleOf } from './find-in-book.ts';
import { CommandError } from './refusal.ts';
import type { Terminal } from './terminal.ts';

/** Where readings of depth may come from: files, or a hole in the book. */
export interface SourceOptions {
  readonly runs?: string;
  readonly pieces?: string;
  readonly soundings?: string;
  readonly cableChecks?: string;
  readonly zeros?: string;
  readonly strain?: string;
  readonly campaign?: string;
  readonly hole?: string;
  readonly data?: string;
}

/** One hole's readings, solved, and how people call its things. */
export interface DepthSource {
  readonly hole: string;
  readonly readings: DepthReadings;
  readonly solution: DepthSolution;
  /** What runs, pieces, soundings and checks are called, by id. */
  readonly names: ReadonlyMap<string, string>;
  readonly pieceNames: PieceNames;
  /** What the findings table calls them, and the columns. */
  readonly findingNames: FindingNames;
  /** Entries behind the readings; none where they come from files. */
  readonly entries: readonly string[];
  readonly stations: readonly InclinationStation[];
  /** Place of a change in the order of entries; all the same where there are none. */
  readonly rank: (change: Change) => number;
  /** The readings as tables; null where they come from tables. */
  readonly tables: ReadingsTables | null;
}

/**
 * Readings solved, from whatever the options name.
 *
 * @param assumed what is assumed otherwise than usual
 */
export const depthSource = async (
  options: SourceOptions,
  assumed: Partial<DepthAssumptions>,
  terminal: Terminal,
): Promise<DepthSource> =>
  options.campaign === undefined
    ? fromFiles(options, assumed, terminal)
    : fromBook(options.campaign, options, assumed, terminal);

const fromFiles = (
  options: SourceOptions,
  assumed: Partial<DepthAssumptions>,
  terminal: Terminal,
): DepthSource => {
  const { runs, pieces, soundings, cableChecks, zeros, strain, hole = 'hole' } = options;
  if (runs === undefined || pieces === undefined)
    throw new CommandError(
      'the runs and the pieces are needed',
      'firnbook',
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
    ...(cableChecks !== undefined && { cableChecks: named(cableChecks) }),
    ...(zeros !== undefined && { zeros: named(zeros) }),
    ...(strain !== undefined && { strain: named(strain) }),
  });
  for (const remark of files.remarks) terminal.err(`${remark}\n`);
  const { readings, written, headers } = files;
  terminal.err(`Solving ${readings.runs.length} runs, ${readings.pieces.length} pieces ...\n`);
  const writtenAs = new Map([...written.run, ...written.piece, ...written.sounding]);
  const names = (word: string, of: ReadonlyMap<string, string>) =>
    [...of].map(([id, text]) => [id, `${word} ${text}`] as const);
  return {
    hole,
    readings,
    solution: solveDepths(readings, { ...defaultAssumptions, ...assumed }),
    names: new Map([
      ...names('run', written.run),
      ...names('piece', written.piece),
      ...names('sounding after run', written.sounding),
    ]),
    pieceNames: new Map(readings.pieces.map(({ id }, i) => [id, files.pieceNames[i]!])),
    findingNames: { which: ({ which }) => writtenAs.get(which) ?? which, field: (field) => headers[field] },
    entries: [],
    stations: [],
    rank: () => 0,
    tables: null,
  };
};

const fromBook = async (
  campaign: string,
  options: SourceOptions,
  assumed: Partial<DepthAssumptions>,
  terminal: Terminal,
): Promise<DepthSource> => {
  const desk = await openDesk(existingDataFolder(options.data, terminal));
  try {
    const { book, trouble } = await findCampaign(desk, campaign);
    if (trouble !== null) terminal.err(`Solved from what the command line last had. ${trouble}\n`);
    const view = book.view();
    const hole = findHoleOf(view.holes, options.hole, campaign);
    terminal.err(`Solving ${hole.name} ...\n`);
    const solved = solvedHole(hole, view, { ...depthAssumptions(hole), ...assumed });
    if (!solved.ok)
      throw new CommandError(solved.problem, `hole ${hole.letter}`, 'Correct the reading in the book.');
    for (const one of allCountedTwice(hole)) terminal.err(`${sayEnglish(one)}\n`);
    return ofHole(hole, view, solved.solution);
  } finally {
    await desk.close();
  }
};

const columns: Readonly<Record<Parameters<FindingNames['field']>[0], string>> = {
  from: 'depth_from_m',
  to: 'depth_to_m',
  length: 'length_m',
  topBreak: 'top_break',
  loss: 'loss_m',
  depth: 'hole_depth_m',
  number: 'run',
  run: 'run',
  counter: 'counter_m',
  height: 'height_m',
};

/** A hole of the book and its solution, as the commands on depths take it. */
export const ofHole = (hole: HoleView, campaign: CampaignView, solution: DepthSolution): DepthSource => {
  const numbers = new Map(hole.runs.map((run) => [run.id, String(run.number)]));
  const pieceNames = new Map(
    hole.runs.flatMap((run) =>
      run.pieces.map(
        (piece) => [piece.id, { run: String(run.number), piece: String(piece.number) }] as const,
      ),
    ),
  );
  // A run that was joined goes on being named: it is the one that it turned out to be.
  const after = new Map(
    hole.soundings.map((one) => [one.id, findRun(hole, one.readings.afterRun?.text ?? '')?.id ?? '']),
  );
  const which: FindingNames['which'] = ({ which: id }) => {
    const piece = pieceNames.get(id);
    return piece === undefined ? (numbers.get(after.get(id) ?? id) ?? id) : `${piece.run}-${piece.piece}`;
  };
  return {
    hole: hole.name,
    readings: depthReadings(hole, campaign),
    solution,
    names: new Map(thingsOf(hole).map((thing) => [thing.id, thing.name])),
    pieceNames,
    findingNames: { which, field: (field) => columns[field] },
    entries: depthSources(hole, campaign),
    stations: inclinationStations(hole),
    rank: changeOrder(hole),
    tables: writeReadings(hole, campaign),
  };
};
