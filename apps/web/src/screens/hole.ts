import type { CampaignView, HoleView, PieceView, ReadingView, RunView, ThingView } from '@firnbook/campaign';

/** What the field forms read off a hole: what comes next, what is left, what is proposed. */

export function standing<T extends ThingView>(things: readonly T[]): readonly T[] {
  return things.filter((thing) => thing.withdrawn === null);
}

export function lastRun(hole: HoleView): RunView | undefined {
  return standing(hole.runs).at(-1);
}

export function nextRunNumber(hole: HoleView): number {
  return Math.max(0, ...hole.runs.map((run) => run.number)) + 1;
}

export function nextPieceNumber(run: RunView): number {
  return Math.max(0, ...run.pieces.map((piece) => piece.number)) + 1;
}

/** What a run names without being asked: the newest set-up drills it, the newest zero is what its counter counts from. */
export function namedByRun(campaign: CampaignView, hole: HoleView): Readonly<Record<string, string>> {
  const setup = standing(campaign.others['set-up'] ?? []).at(-1);
  const zero = standing(hole.zeros).at(-1);
  return { ...(setup ? { setup: setup.id } : {}), ...(zero ? { zero: zero.id } : {}) };
}

/** The reading's number in its base unit, where there is one. */
export function metresOf(thing: ThingView, field: string): number | null {
  return reading(thing, field)?.value ?? null;
}

export function reading(thing: ThingView, field: string): ReadingView | undefined {
  return thing.readings[field];
}

/** Metres drilled by the counter; null where a reading is missing. */
export function drilled(run: RunView): number | null {
  const from = metresOf(run, 'from');
  const to = metresOf(run, 'to');
  return from === null || to === null ? null : to - from;
}

/** Metres of core on the bench so far. */
export function benched(run: RunView): number {
  return standing(run.pieces).reduce((sum, piece) => sum + (metresOf(piece, 'length') ?? 0), 0);
}

/** The run whose core lies on the bench: the newest one that has core and no pieces yet, else the newest. */
export function runOnBench(hole: HoleView): RunView | undefined {
  const runs = standing(hole.runs);
  return runs.findLast((run) => !run.nothingRecovered && run.pieces.length === 0) ?? runs.at(-1);
}

/** Run and piece of a thing that was touched on the axis; undefined where it is neither. */
export function findIce(
  hole: HoleView,
  thing: string,
): { readonly run: RunView; readonly piece: PieceView | undefined } | undefined {
  for (const run of hole.runs) {
    if (run.id === thing) return { run, piece: undefined };
    const piece = run.pieces.find((candidate) => candidate.id === thing);
    if (piece) return { run, piece };
  }
  return undefined;
}

/** The sounding that was touched on the axis, or the zeros where its zero was; none where it is neither. */
export function findMeasured(hole: HoleView, thing: string): readonly ThingView[] {
  if (thing === hole.id) return hole.zeros;
  return [...hole.soundings, ...hole.zeros].filter((one) => one.id === thing);
}
