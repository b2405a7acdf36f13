import type { DepthReadings } from '@firnbook/science/depth';
import { isOutOfPlace } from '../depth/out-of-place.ts';
import { depthReadings } from '../depth/readings.ts';
import { standing, standingPieces, standingRuns } from '../find.ts';
import { numberIn } from '../thing-view.ts';
import type { CampaignView, DepthView, HoleView, PieceView, RunView, ThingView } from '../view.ts';
import { type DayClosing, dayClosing } from './closing.ts';
import { type Need, needsOf } from './needs.ts';

/** What runs and their core come to. Lengths in metres. */
export interface DayTotals {
  readonly runs: number;
  /** Of these, runs that brought nothing. */
  readonly empty: number;
  /** By the counter, as far as it was read. */
  readonly drilled: number;
  /** Lengths together, as far as they are told: on the bench, along the tray tape, by the mass of what crumbled. */
  readonly core: number;
  readonly pieces: number;
  /** Of these, pieces with a mass. */
  readonly weighed: number;
}

/** Runs that one person logged without a long pause. */
export interface DayShift extends DayTotals {
  readonly driller: string;
  /** Whoever logged the pieces, in order of appearance. */
  readonly loggers: readonly string[];
  readonly first: RunView;
  readonly last: RunView;
}

export interface DayHole extends DayTotals {
  readonly hole: HoleView;
  readonly shifts: readonly DayShift[];
  /** Whether what was drilled is accounted for; null while the hole is not solved. */
  readonly closing: DayClosing | null;
}

export interface TodayView {
  /** ISO 8601 (UTC), both ends of the day. */
  readonly from: string;
  readonly to: string;
  /** Holes at which a run was logged, in order of letters. */
  readonly holes: readonly DayHole[];
  /** Of all holes together. */
  readonly totals: DayTotals;
  readonly needs: readonly Need[];
  /** Duties that have begun and not ended. */
  readonly onShift: readonly ThingView[];
  /** Newest by the day's end; null where there is none. */
  readonly handover: ThingView | null;
  readonly weather: ThingView | null;
  /** When something was last drilled or logged at the bench by the day's end, ISO 8601; null where nothing was. */
  readonly lastWork: string | null;
}

const DAY = 86_400_000;
/** A longer pause between two runs begins another shift. Common practice, no source. */
const PAUSE = 4 * 3_600_000;

/**
 * What was done in 24 hours, whether it closes, and what needs a person.
 *
 * @param depths by the hole's id; a hole that is not solved is absent
 * @param to end of the 24 hours, ms since 1970
 */
export function todayView(
  campaign: CampaignView,
  depths: Readonly<Record<string, DepthView>>,
  to: number,
): TodayView {
  const from = to - DAY;
  const within = (thing: ThingView): boolean => timeOf(thing) > from && timeOf(thing) <= to;
  const holes = campaign.holes
    .filter((hole) => hole.withdrawn === null)
    .map((hole) => ({ hole, runs: standingRuns(hole).filter(within) }))
    .filter(({ runs }) => runs.length > 0)
    .map(({ hole, runs }): DayHole => {
      const readings = depthReadings(hole, campaign);
      const lengths = lengthsIn(readings);
      return {
        hole,
        ...totalsOf(runs, lengths),
        shifts: shiftsOf(runs, lengths),
        closing: dayClosing(readings, depths[hole.id] ?? null, runs),
      };
    })
    .sort((a, b) => a.hole.letter.localeCompare(b.hole.letter, 'en'));
  const newest = (kind: string) => newestOf(campaign.others[kind], to);
  return {
    from: new Date(from).toISOString(),
    to: new Date(to).toISOString(),
    holes,
    totals: sumOf(holes),
    needs: needsOf(campaign, depths, { from, to }),
    onShift: standing(campaign.others.duty).filter((duty) => isOn(duty, to)),
    handover: newest('handover'),
    weather: newest('weather'),
    lastWork: lastWork(campaign, to),
  };
}

const timeOf = (thing: ThingView): number => Date.parse(thing.at);

/** Lengths by piece, of whatever told them: the bench, the tray tape, the mass of what crumbled. */
type Lengths = ReadonlyMap<string, number>;

function lengthsIn({ runs, pieces }: DepthReadings): Lengths {
  const along = new Map(
    runs.flatMap(({ trayTape }) =>
      (trayTape?.breaks ?? []).map(({ piece, top, bottom }) => [piece, bottom - top] as const),
    ),
  );
  return new Map(
    pieces.flatMap(({ id, length, crumbledMassLength }): readonly (readonly [string, number])[] => {
      const told = length ?? along.get(id) ?? crumbledMassLength?.value;
      return told === undefined ? [] : [[id, told]];
    }),
  );
}

function totalsOf(runs: readonly RunView[], lengths: Lengths): DayTotals {
  const pieces = runs.flatMap(coreOf);
  return {
    runs: runs.length,
    empty: runs.filter((run) => run.nothingRecovered && run.pieces.length === 0).length,
    drilled: runs.reduce((sum, run) => sum + (advanceOf(run) ?? 0), 0),
    core: pieces.reduce((sum, piece) => sum + (lengths.get(piece.id) ?? 0), 0),
    pieces: pieces.length,
    weighed: pieces.filter((piece) => numberIn(piece, 'mass') !== null).length,
  };
}

const sumOf = (holes: readonly DayTotals[]): DayTotals =>
  holes.reduce<DayTotals>(
    (sum, one) => ({
      runs: sum.runs + one.runs,
      empty: sum.empty + one.empty,
      drilled: sum.drilled + one.drilled,
      core: sum.core + one.core,
      pieces: sum.pieces + one.pieces,
      weighed: sum.weighed + one.weighed,
    }),
    { runs: 0, empty: 0, drilled: 0, core: 0, pieces: 0, weighed: 0 },
  );

function advanceOf(run: RunView): number | null {
  const [from, to] = [numberIn(run, 'from'), numberIn(run, 'to')];
  return from === null || to === null ? null : to - from;
}

const coreOf = (run: RunView): readonly PieceView[] =>
  standingPieces(run).filter((piece) => !isOutOfPlace(piece));

/** Runs in order of time, cut where another person logs them or after a long pause. */
function shiftsOf(runs: readonly RunView[], lengths: Lengths): readonly DayShift[] {
  const stretches: RunView[][] = [];
  for (const run of [...runs].sort((a, b) => timeOf(a) - timeOf(b) || a.number - b.number)) {
    const stretch = stretches.at(-1);
    const before = stretch?.at(-1);
    if (stretch && before && before.by === run.by && timeOf(run) - timeOf(before) <= PAUSE) stretch.push(run);
    else stretches.push([run]);
  }
  return stretches.map((stretch) => ({
    ...totalsOf(stretch, lengths),
    driller: stretch[0]!.by,
    loggers: [...new Set(stretch.flatMap(coreOf).map((piece) => piece.by))],
    first: stretch[0]!,
    last: stretch.at(-1)!,
  }));
}

function newestOf(things: readonly ThingView[] | undefined, to: number): ThingView | null {
  let newest: ThingView | null = null;
  for (const one of standing(things))
    if (timeOf(one) <= to && (newest === null || timeOf(one) >= timeOf(newest))) newest = one;
  return newest;
}

/** A time that can't be read counts as past: nobody is taken off shift by it. */
function isOn(duty: ThingView, at: number): boolean {
  const began = Date.parse(duty.readings.began?.text ?? duty.at);
  const ended = duty.readings.ended === undefined ? Number.NaN : Date.parse(duty.readings.ended.text);
  return !(began > at) && !(ended <= at);
}

function lastWork(campaign: CampaignView, to: number): string | null {
  let last: ThingView | null = null;
  for (const hole of campaign.holes)
    for (const run of standingRuns(hole))
      for (const thing of [run, ...standingPieces(run)])
        if (timeOf(thing) <= to && (last === null || timeOf(thing) > timeOf(last))) last = thing;
  return last?.at ?? null;
}
