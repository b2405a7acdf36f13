import type {
  BreakClass,
  CableCheck,
  DepthReadings,
  PieceReading,
  RunReading,
  SoundingReading,
  ZeroReading,
} from '@firnbook/science/depth';
import { findRun, isCalled, standing, standingPieces, standingRuns } from '../find.ts';
import { textIn } from '../thing-view.ts';
import type { CampaignView, HoleView, PieceView, RunView, ThingView } from '../view.ts';
import { holeTemperature } from './assumptions.ts';
import { crumbledLength, massPerMetre } from './crumbled.ts';
import { isOutOfPlace } from './out-of-place.ts';
import { setupOf } from './set-ups.ts';
import { strainTable } from './strain.ts';
import { trayTapes } from './tray-tapes.ts';
import { usable, usableTemperature } from './usable.ts';
import { zeroReadings } from './zeros.ts';

/** Standard deviations where nobody said one: common practice, no source. */
const SOUNDING_SD = 0.02;
const CHECK_SD = 0.01;
/** Of a stub that the driller saw or felt: so much, and a share of it. */
const STUB_SD = 0.02;
const STUB_SHARE = 0.25;

/** Of the campaign, what a hole's depths hang on: the drill set-ups. */
export type SetUps = Pick<CampaignView, 'others'>;

/**
 * What a hole's readings say about depth, for the solver: in order of run and piece number, without what was
 * withdrawn, joined things once. A reading that no solver can use (a length that is not above zero, a negative
 * depth) is left out; the thing stays.
 */
export function depthReadings(hole: HoleView, campaign: SetUps): DepthReadings {
  const runs = standingRuns(hole);
  const pieces = runs.flatMap((run) => standingPieces(run));
  const trays = trayTapes(hole);
  const perMetre = massPerMetre(pieces);
  const zeros = zeroReadings(hole, runs);
  const cableChecks = standing(hole.others['cable check']).flatMap((one) => cableCheck(hole, one));
  const temperature = holeTemperature(hole);
  const strain = strainTable(campaign);
  // A time that cannot be read is none; the first that can be is when the hole was begun.
  const began = runs.map((run) => Date.parse(run.at)).find((at) => !Number.isNaN(at));
  return {
    runs: runs.map((run) => {
      const trayTape = trays.get(run.id);
      const epoch = Date.parse(run.at) - (began ?? 0);
      return {
        ...runReading(hole, run, setupOf(run, campaign), zeros),
        // Without a rate there is nothing to do with a time.
        ...(strain === null || Number.isNaN(epoch) ? {} : { epoch }),
        ...(trayTape === undefined ? {} : { trayTape }),
      };
    }),
    pieces: pieces.map((piece) => pieceReading(hole, piece, perMetre)),
    soundings: hole.soundings.flatMap((one) => soundingReading(hole, one)),
    ...(cableChecks.length === 0 ? {} : { cableChecks }),
    ...(zeros.length === 0 ? {} : { zeros }),
    ...(temperature === null ? {} : { holeTemperature: temperature }),
    ...(strain === null ? {} : { strain }),
  };
}

function runReading(
  hole: HoleView,
  run: RunView,
  setup: ThingView | undefined,
  zeros: readonly ZeroReading[],
): RunReading {
  const from = usable(run, 'from', 0);
  const to = usable(run, 'to', 0);
  const stub = usable(run, 'stub', 0);
  const named = textIn(run, 'zero');
  // One that was withdrawn says nothing any more: the latest so far counts.
  const zero = named === '' ? undefined : hole.zeros.find((one) => isCalled(one, named))?.id;
  const barrelLength = setup === undefined ? null : usable(setup, 'barrel', 0.1);
  const catcherHeight = setup === undefined ? null : usable(setup, 'catcherHeight', 0);
  return {
    id: run.id,
    ...(from === null ? {} : { from }),
    ...(to === null ? {} : { to }),
    ...(textIn(run, 'counter') === 'not zeroed' ? { resets: false } : {}),
    ...(barrelLength === null ? {} : { barrelLength }),
    ...(catcherHeight === null ? {} : { catcherHeight }),
    ...(stub === null || isAwaited(run)
      ? {}
      : { leftInHole: { value: stub, sd: STUB_SD + STUB_SHARE * stub } }),
    ...(zero !== undefined && zeros.some((one) => one.id === zero) ? { zero } : {}),
  };
}

/** Its core lies on no bench yet: a stub below it can't be told from the core itself. */
const isAwaited = (run: RunView): boolean => !run.nothingRecovered && standing(run.pieces).length === 0;

function pieceReading(
  hole: HoleView,
  piece: PieceView,
  perMetre: ReturnType<typeof massPerMetre>,
): PieceReading {
  const length = usable(piece, 'length', Number.MIN_VALUE);
  const loss = usable(piece, 'loss', 0);
  const kerf = usable(piece, 'kerf', 0);
  const topBreak = breakOf(piece);
  const temperature = usableTemperature(piece, 'temperature');
  const crumbled = isGuessed(piece) ? crumbledLength(piece, perMetre) : null;
  const mark = usable(piece, 'catcherMark', 0);
  const scratcher = scratcherOf(hole, piece);
  return {
    id: piece.id,
    run: piece.run,
    ...(length === null ? {} : { length }),
    topBreak,
    ...(loss === null || (topBreak !== 'loss' && topBreak !== 'ground') ? {} : { loss }),
    ...(kerf === null || topBreak !== 'sawn' ? {} : { kerf }),
    ...(temperature === null ? {} : { temperature }),
    ...(isOutOfPlace(piece) ? { outOfPlace: true } : {}),
    ...(crumbled === null ? {} : { crumbledMassLength: crumbled }),
    ...(mark === null || scratcher === null ? {} : { catcherMark: { depth: mark, byRun: scratcher } }),
    ...(textIn(piece, 'order') === 'unsure' ? { orderUnsure: true } : {}),
    ...(textIn(piece, 'found') === 'later' ? { foundLater: true } : {}),
  };
}

/** Crumbled core that nobody could lay a tape along. */
const isGuessed = (piece: PieceView): boolean =>
  textIn(piece, 'ice') === 'crumbled' && usable(piece, 'length', Number.MIN_VALUE) === null;

/** The run whose catcher left the scratch; null where the one that is named is withdrawn. */
function scratcherOf(hole: HoleView, piece: PieceView): string | null {
  const named = textIn(piece, 'catcherRun');
  if (named === '') return piece.run;
  const run = findRun(hole, named);
  return run === undefined || run.withdrawn !== null ? null : run.id;
}

function soundingReading(hole: HoleView, one: ThingView): readonly SoundingReading[] {
  const run = findRun(hole, textIn(one, 'afterRun'));
  const depth = usable(one, 'depth', 0);
  if (one.withdrawn !== null || run === undefined || run.withdrawn !== null || depth === null) return [];
  return [{ id: one.id, afterRun: run.id, depth, sd: usable(one, 'sd', 1e-4) ?? SOUNDING_SD }];
}

function cableCheck(hole: HoleView, one: ThingView): readonly CableCheck[] {
  const run = findRun(hole, textIn(one, 'afterRun'));
  const counter = usable(one, 'counter', 0);
  const mark = usable(one, 'mark', Number.MIN_VALUE);
  if (run === undefined || run.withdrawn !== null || counter === null || mark === null) return [];
  return [{ id: one.id, afterRun: run.id, counter, mark, sd: usable(one, 'sd', 1e-4) ?? CHECK_SD }];
}

const classes: readonly BreakClass[] = ['fits', 'ground', 'loss', 'sawn', 'handling'];

function breakOf(piece: PieceView): BreakClass {
  const word = textIn(piece, 'topBreak');
  return classes.find((one) => one === word) ?? 'unsure';
}

/**
 * The entries behind a hole's solved depths: every depth hangs on all readings that the solver was given (J8).
 * Oldest thing first, each entry once.
 */
export function depthSources(hole: HoleView, campaign: SetUps): readonly string[] {
  const runs = standingRuns(hole);
  const isAnyGuessed = runs.some((run) => standingPieces(run).some(isGuessed));
  const things: readonly ThingView[] = [
    ...standing(campaign.others.site).slice(-1),
    ...new Set(runs.flatMap((run) => setupOf(run, campaign) ?? [])),
    ...standing(hole.zeros),
    ...standing(hole.others['zero check']),
    ...runs.flatMap((run) => [run, ...standingPieces(run)]),
    ...standing(hole.soundings),
    ...standing(hole.others['cable check']),
    ...standing(hole.others.tray),
    ...standing(hole.others['depth settings']),
  ];
  const entries = things.flatMap((thing) =>
    Object.values(thing.readings)
      .filter((reading) => saysDepth(thing, reading.field, isAnyGuessed))
      .map((reading) => reading.entry),
  );
  return [...new Set(entries)];
}

/** Fields of a run or a piece that the solver is given, or that what it is given is made of. */
const ofRun: ReadonlySet<string> = new Set(['number', 'from', 'to', 'stub', 'setup', 'zero', 'counter']);
const ofPiece: ReadonlySet<string> = new Set([
  'run',
  'number',
  'length',
  'topBreak',
  'loss',
  'kerf',
  'ice',
  'order',
  'found',
  'catcherMark',
  'catcherRun',
  'temperature',
]);
const ofSite: ReadonlySet<string> = new Set(['temperature', 'accumulation', 'surfaceDensity']);
const ofSetup: ReadonlySet<string> = new Set(['barrel', 'catcherHeight']);

/** @param isAnyGuessed whether a length is made from a mass: then it hangs on those of its neighbours too */
function saysDepth(thing: ThingView, field: string, isAnyGuessed: boolean): boolean {
  if (thing.kind === 'run') return ofRun.has(field);
  if (thing.kind === 'piece')
    return ofPiece.has(field) || (isAnyGuessed && (field === 'mass' || field === 'tare'));
  if (thing.kind === 'site') return ofSite.has(field);
  if (thing.kind === 'set-up') return ofSetup.has(field);
  return true;
}
