import type { CampaignView, HoleView, PieceView, RunView, ThingView } from './view.ts';

/** A thing and the hole in whose thread it is told; null for what belongs to the campaign. */
export interface Found {
  readonly thing: ThingView;
  readonly hole: HoleView | null;
}

const isCalled = (thing: ThingView, id: string): boolean =>
  thing.id === id || (thing.absorbed?.includes(id) ?? false);

/** By id; the id of a thing that was joined into another one finds that one. */
export function findThing(campaign: CampaignView, id: string): Found | undefined {
  for (const hole of campaign.holes) {
    const thing = [hole, ...thingsOf(hole)].find((one) => isCalled(one, id));
    if (thing !== undefined) return { thing, hole };
  }
  const own = [
    ...(campaign.opened ? [campaign.opened] : []),
    ...campaign.people,
    ...(campaign.devices ?? []),
  ].find((one) => isCalled(one, id));
  return own === undefined ? undefined : { thing: own, hole: null };
}

export function findHole(campaign: CampaignView, id: string): HoleView | undefined {
  return campaign.holes.find((hole) => isCalled(hole, id));
}

export function findRun(hole: HoleView, id: string): RunView | undefined {
  return hole.runs.find((run) => isCalled(run, id));
}

/** Everything told about a hole, in the order of the work. */
export function thingsOf(hole: HoleView): readonly ThingView[] {
  return [...hole.zeros, ...hole.runs.flatMap((run) => [run, ...run.pieces]), ...hole.soundings];
}

export function standingRuns(hole: HoleView): readonly RunView[] {
  return hole.runs.filter((run) => run.withdrawn === null);
}

export function standingPieces(run: RunView): readonly PieceView[] {
  return run.pieces.filter((piece) => piece.withdrawn === null);
}
