import type { HoleView } from '@firnbook/campaign';
import type { Desk, OpenBook } from './desk.ts';
import { CommandError } from './refusal.ts';

/** By id, or by name where only one is called so. */
export const findCampaign = async (desk: Desk, said: string): Promise<OpenBook> => {
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

export const findHoleOf = (
  holes: readonly HoleView[],
  said: string | undefined,
  campaign: string,
): HoleView => {
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
