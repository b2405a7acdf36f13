import { type DepthView, depthReadings, depthView, type HoleView } from '@firnbook/campaign';
import { writeDepths, writeFindings, writeReadings } from '@firnbook/exchange';
import {
  type DepthAssumptions,
  DepthInputError,
  type DepthSolution,
  defaultAssumptions,
  type Finding,
  solveDepths,
} from '@firnbook/science/depth';
import { existingDataFolder } from './data-folder.ts';
import { depthSummary } from './depth-summary.ts';
import { type Desk, type OpenBook, openDesk } from './desk.ts';
import { CommandError } from './refusal.ts';
import type { Terminal } from './terminal.ts';

export type SolvedHole =
  | { readonly ok: true; readonly solution: DepthSolution; readonly view: DepthView }
  | { readonly ok: false; readonly problem: string };

/** A hole of the book, by the same functions as the screens. */
export const solvedHole = (
  hole: HoleView,
  assumptions: DepthAssumptions = defaultAssumptions,
): SolvedHole => {
  try {
    const solution = solveDepths(depthReadings(hole), assumptions);
    return { ok: true, solution, view: depthView(hole, solution) };
  } catch (error) {
    if (error instanceof DepthInputError) return { ok: false, problem: error.message };
    throw error;
  }
};

/** Depths and findings of a hole in the book, as the two tables of `firnbook depths`. */
export const solveBook = async (
  campaign: string,
  options: { readonly hole?: string; readonly data?: string },
  assumptions: DepthAssumptions,
  terminal: Terminal,
) => {
  const desk = await openDesk(existingDataFolder(options.data, terminal));
  try {
    const { book, trouble } = await findCampaign(desk, campaign);
    if (trouble !== null) terminal.err(`Solved from what the command line last had. ${trouble}\n`);
    const hole = findHoleOf(book.view().holes, options.hole, campaign);
    terminal.err(`Solving ${hole.name} ...\n`);
    const solved = solvedHole(hole, assumptions);
    if (!solved.ok)
      throw new CommandError(solved.problem, `hole ${hole.letter}`, 'Correct the reading in the book.');
    return tables(hole, solved.solution);
  } finally {
    await desk.close();
  }
};

const tables = (hole: HoleView, solution: DepthSolution) => {
  const runs = new Map(hole.runs.map((run) => [run.id, run]));
  const pieces = new Map(
    hole.runs.flatMap((run) =>
      run.pieces.map(
        (piece) => [piece.id, { run: String(run.number), piece: String(piece.number) }] as const,
      ),
    ),
  );
  const soundings = new Map(hole.soundings.map((one) => [one.id, one.readings.afterRun?.text ?? '']));
  const nameOfRun = (id: string) => String(runs.get(id)?.number ?? id);
  const which = ({ what, which: id }: Finding): string => {
    if (what === 'run') return nameOfRun(id);
    if (what === 'sounding') return nameOfRun(soundings.get(id) ?? id);
    const piece = pieces.get(id);
    return piece === undefined ? id : `${piece.run}-${piece.piece}`;
  };
  const headers = {
    from: 'depth_from_m',
    to: 'depth_to_m',
    length: 'length_m',
    topBreak: 'top_break',
    loss: 'loss_m',
    depth: 'hole_depth_m',
  };
  const names = solution.pieces.map(({ id }) => pieces.get(id)!);
  return {
    depths: writeDepths(solution, names),
    findings: writeFindings(solution.findings, { which, field: (field) => headers[field] }),
    summary: depthSummary(solution, which),
    readings: writeReadings(hole),
  };
};

/** By id, or by name where only one is called so. */
const findCampaign = async (desk: Desk, said: string): Promise<OpenBook> => {
  const ids = await desk.campaigns();
  if (ids.includes(said)) return desk.open(said);
  const names: string[] = [];
  const fitting: OpenBook[] = [];
  for (const id of ids) {
    const opened = await desk.open(id);
    const { name } = opened.book.view();
    names.push(name);
    if (name.toLowerCase() === said.toLowerCase()) fitting.push(opened);
  }
  if (fitting.length === 1) return fitting[0]!;
  throw fitting.length === 0
    ? new CommandError(
        `there is no campaign "${said}"`,
        '--campaign',
        names.length === 0 ? 'The book is empty.' : `There are: ${names.join(', ')}.`,
      )
    : new CommandError(
        `${fitting.length} campaigns are called "${said}"`,
        '--campaign',
        `Give the id: ${fitting.map((one) => one.campaign).join(' or ')}.`,
      );
};

const findHoleOf = (holes: readonly HoleView[], said: string | undefined, campaign: string): HoleView => {
  const list = holes.map((hole) => hole.letter).join(', ');
  if (said === undefined) {
    if (holes.length === 1) return holes[0]!;
    throw new CommandError(
      `campaign "${campaign}" has ${holes.length} holes`,
      '--hole',
      holes.length === 0 ? 'Log a hole first.' : `Name one of: ${list}.`,
    );
  }
  const wanted = said.toLowerCase();
  const hole = holes.find((one) => one.letter.toLowerCase() === wanted || one.name.toLowerCase() === wanted);
  if (hole !== undefined) return hole;
  throw new CommandError(`there is no hole "${said}"`, '--hole', `There are: ${list || 'none'}.`);
};
