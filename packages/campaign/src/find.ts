import { kindOf } from './kinds.ts';
import { allOf } from './others.ts';
import { numberIn } from './thing-view.ts';
import type { CampaignView, HoleView, PieceView, RunView, ThingView } from './view.ts';

/** A thing and the hole in whose thread it is told; null for what belongs to the campaign. */
export interface Found {
  readonly thing: ThingView;
  readonly hole: HoleView | null;
}

/** Whether an id is that of a thing, or of one that was joined into it: readings go on naming the id that was said. */
export const isCalled = (thing: Pick<ThingView, 'id' | 'absorbed'>, id: string): boolean =>
  thing.id === id || (thing.absorbed?.includes(id) ?? false);

/** By id; the id of a thing that was joined into another one finds that one. */
export function findThing(campaign: CampaignView, id: string): Found | undefined {
  for (const hole of campaign.holes) {
    const thing = isCalled(hole, id) ? hole : findIn(hole, id);
    if (thing !== undefined) return { thing, hole };
  }
  const own = thingsOfCampaign(campaign).find((one) => isCalled(one, id));
  return own === undefined ? undefined : { thing: own, hole: null };
}

/** Every command looks for its thing among thousands: without a list of them all. */
function findIn(hole: HoleView, id: string): ThingView | undefined {
  const among = (things: readonly ThingView[]): ThingView | undefined =>
    things.find((one) => isCalled(one, id));
  for (const run of hole.runs) {
    const thing = isCalled(run, id) ? run : among(run.pieces);
    if (thing !== undefined) return thing;
  }
  for (const things of [hole.zeros, hole.soundings, ...Object.values(hole.others)]) {
    const thing = among(things);
    if (thing !== undefined) return thing;
  }
  return undefined;
}

export function findHole(campaign: CampaignView, id: string): HoleView | undefined {
  return campaign.holes.find((hole) => isCalled(hole, id));
}

export function findRun(hole: HoleView, id: string): RunView | undefined {
  return hole.runs.find((run) => isCalled(run, id));
}

/**
 * A thing by id, or among those that are not withdrawn by name, by its number where no two bear it, by an old name.
 *
 * @param hole whose things are meant; null where only things of the campaign and holes can be
 * @param of kinds that it may be
 */
export function findNamed(
  campaign: CampaignView,
  hole: HoleView | null,
  of: readonly string[],
  said: string,
): ThingView | undefined {
  const all = of.flatMap((kind): readonly ThingView[] => {
    if (kind === 'hole')
      return campaign.holes.map((one) => ({ ...one, aliases: [one.letter, ...one.aliases] }));
    const isOfCampaign = kindOf(kind)?.under === 'campaign';
    const things = isOfCampaign ? thingsOfCampaign(campaign) : hole === null ? [] : thingsOf(hole);
    return things.filter((one) => one.kind === kind);
  });
  const byId = all.find((one) => isCalled(one, said));
  if (byId !== undefined) return byId;
  const standing = all.filter((one) => one.withdrawn === null);
  const name = said.toUpperCase();
  const numbered = standing.filter((one) => String(numberIn(one, 'number')) === said);
  // Two runs of one number are a conflict of their own; pieces are numbered anew in each run.
  const byNumber = numbered.length === 1 || numbered[0]?.kind === 'run' ? numbered[0] : undefined;
  return (
    standing.find((one) => one.name.toUpperCase() === name) ??
    byNumber ??
    standing.find((one) => one.aliases.some((alias) => alias.toUpperCase() === name))
  );
}

/** Everything told about the campaign itself: what is under no hole. */
function thingsOfCampaign(campaign: CampaignView): readonly ThingView[] {
  return [
    ...(campaign.opened ? [campaign.opened] : []),
    ...campaign.people,
    ...(campaign.devices ?? []),
    ...allOf(campaign.others),
  ];
}

/** Everything told about a hole, in the order of the work. */
export function thingsOf(hole: HoleView): readonly ThingView[] {
  return [
    ...hole.zeros,
    ...hole.runs.flatMap((run) => [run, ...run.pieces]),
    ...hole.soundings,
    ...allOf(hole.others),
  ];
}

/** Those that were not withdrawn; none where there is no such kind. */
export const standing = <T extends ThingView>(things: readonly T[] | undefined): readonly T[] =>
  (things ?? []).filter((one) => one.withdrawn === null);

export function standingRuns(hole: HoleView): readonly RunView[] {
  return hole.runs.filter((run) => run.withdrawn === null);
}

export function standingPieces(run: RunView): readonly PieceView[] {
  return run.pieces.filter((piece) => piece.withdrawn === null);
}
