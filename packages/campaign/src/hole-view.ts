import { nameConflicts, readingConflicts } from './conflicts.ts';
import { pieceKind } from './core/schema.ts';
import { pieceView } from './core/view.ts';
import { runKind, soundingKind } from './drilling/schema.ts';
import { runView } from './drilling/view.ts';
import { soundingName, unknownRun, zeroName } from './frozen-names.ts';
import { allOf, otherThings } from './others.ts';
import { holeKind, zeroKind } from './setup/schema.ts';
import {
  entriesOf,
  keptView,
  namesOf,
  numberIn,
  numbersEver,
  readingsOf,
  textIn,
  thingView,
  wordsEver,
} from './thing-view.ts';
import { type PieceHome, rootOf, rootsOf, type Thing, type ThreadState, waitingIn } from './thread.ts';
import type { ConflictView, HoleView, PieceView, RunView, ThingView } from './view.ts';

/**
 * Everything about one hole. Null while the entry that opened it has not arrived.
 *
 * Each thing's view is kept in the state and given again while nothing it shows has changed. So one more entry
 * costs a walk over the hole's things; its thing, its run and the hole's lists alone are made anew.
 */
export function holeView(state: ThreadState): HoleView | null {
  const hole = rootsOf(state, holeKind)[0];
  if (hole === undefined) return null;
  const readings = readingsOf(hole);
  const letter = textIn({ readings }, 'letter') || '?';
  const bare = thingView(hole, readings, { name: textIn({ readings }, 'core') || letter });
  // The present letter last, as names are made with it.
  const letters = [...wordsEver(hole, 'letter').filter((one) => one !== letter), letter];
  const homes = rootsOf(state, runKind).map((run) => homeOf(run, letters));
  let homeless = 0;
  for (const piece of rootsOf(state, pieceKind)) homeless += settle(state, piece);
  for (const home of homes) fill(home);
  inNumberOrder(homes, (home) => runIn(home).number);
  const runs = homes.map(runIn);
  const zeros = rootsOf(state, zeroKind).map((zero, index) => keptView(zero, zeroName(index + 1)));
  const soundings = rootsOf(state, soundingKind).map((one) => soundingView(state, one));
  const names = namesOf([...zeros, ...soundings]);
  const others = otherThings(state, 'hole', ownViews, (id) => names.get(id) ?? nameIn(state, id));
  return {
    ...bare,
    letter,
    zeros,
    runs,
    soundings,
    others,
    conflicts: [
      ...(hasTwins(runs) ? nameConflicts(runs, 'runs') : none),
      ...gathered(homes, ({ names }) => names),
      ...readingConflicts([bare, ...zeros]),
      ...gathered(homes, ({ run }) => run),
      ...gathered(homes, ({ pieces }) => pieces),
      ...readingConflicts(soundings),
      ...readingConflicts(allOf(others)),
    ],
    notUnderstood: state.notUnderstood.size,
    waiting: waitingIn(state) + homeless,
  };
}

/** Kinds that this file makes views of. */
const ownViews: ReadonlySet<string> = new Set(
  [holeKind, zeroKind, runKind, pieceKind, soundingKind].map(({ kind }) => kind),
);

/** The name of a run or piece, or of whatever it was joined into. */
const nameIn = (state: ThreadState, id: string): string | undefined => {
  const root = rootOf(state, id);
  return root?.kind === runKind || root?.kind === pieceKind ? root.view?.name : undefined;
};

/** A run with what its view is put together from. Kept in its thing from one look to the next. */
interface RunHome extends PieceHome {
  readonly thing: Thing;
  /** Gathered anew with every look. */
  pieces: PieceView[];
  conflicts: RunConflicts;
}

interface RunConflicts {
  readonly names: readonly ConflictView[];
  readonly run: readonly ConflictView[];
  readonly pieces: readonly ConflictView[];
}

/** One for all: nearly every run is without conflicts. */
const none: readonly never[] = [];
const quiet: RunConflicts = { names: none, run: none, pieces: none };

function homeOf(run: Thing, letters: readonly string[]): RunHome {
  const kept = run.home as RunHome | null;
  if (kept !== null && run.view !== null && isSameList(kept.letters, letters)) {
    kept.pieces = [];
    return kept;
  }
  const ever = numbersEver(run, 'number');
  const number = ever.length < 2 ? (ever[0] ?? null) : numberIn({ readings: readingsOf(run) }, 'number');
  const home = { run: run.id, letters, number, numbersEver: ever, thing: run, pieces: [], conflicts: quiet };
  run.home = home;
  run.view = null;
  return home;
}

/** The run's home; null for an id that no run here has. Every run has got its own before. */
function homeFor(state: ThreadState, run: string): RunHome | null {
  const root = rootOf(state, run);
  return root?.kind === runKind ? (root.home as RunHome) : null;
}

/**
 * Puts a piece's view into its run. Where that run is not here, into the last one it was said to belong to that is: a
 * piece that a wrong word took out of sight could not be put right (J3).
 *
 * @returns how many entries wait for a run that is not here
 */
function settle(state: ThreadState, piece: Thing): number {
  const last = piece.home as RunHome | null;
  // Nothing has happened to it and to its run, which is so for all but a few: no need to look the run up.
  if (piece.view !== null && last !== null && last === last.thing.home && last.thing.joinedInto === null) {
    last.pieces.push(piece.view as PieceView);
    return 0;
  }
  const said = wordsEver(piece, 'run');
  const now = said.length < 2 ? (said[0] ?? '') : textIn({ readings: readingsOf(piece) }, 'run');
  const named = homeFor(state, now);
  const home = named ?? said.map((run) => homeFor(state, run)).findLast((one) => one !== null) ?? null;
  if (home === null) return entriesOf(piece).length;
  const own =
    said.length === 1
      ? home
      : { ...home, numbersEver: said.flatMap((id) => homeFor(state, id)?.numbersEver ?? []) };
  if (piece.view === null || !isSameHome(piece.home, own)) piece.view = pieceView(piece, own);
  piece.home = own;
  home.pieces.push(piece.view as PieceView);
  return named === null ? 1 : 0;
}

/** Makes the run's view, unless the kept one has the same pieces. */
function fill(home: RunHome): void {
  const { thing, letters, pieces } = home;
  inNumberOrder(pieces, (piece) => piece.number);
  if (thing.view !== null && isSameList(runIn(home).pieces, pieces)) return;
  const run = runView(thing, letters, pieces);
  thing.view = run;
  const conflicts = {
    names: hasTwins(pieces) ? nameConflicts(pieces, `pieces of ${run.id}`) : none,
    run: readingConflicts([run]),
    pieces: readingConflicts(pieces),
  };
  const isQuiet = conflicts.names.length + conflicts.run.length + conflicts.pieces.length === 0;
  home.conflicts = isQuiet ? quiet : conflicts;
}

const runIn = (home: RunHome): RunView => home.thing.view as RunView;

function gathered(
  homes: readonly RunHome[],
  of: (conflicts: RunConflicts) => readonly ConflictView[],
): readonly ConflictView[] {
  return homes.filter(({ conflicts }) => conflicts !== quiet).flatMap(({ conflicts }) => of(conflicts));
}

/** A sounding is named after its run: "Sounding after B-R034". */
function soundingView(state: ThreadState, sounding: Thing): ThingView {
  const run = homeFor(state, textIn({ readings: readingsOf(sounding) }, 'afterRun'));
  return keptView(sounding, soundingName(run === null ? unknownRun : runIn(run).name));
}

/** In place, and not at all where it is so already, as it nearly always is. */
function inNumberOrder<T>(list: T[], number: (one: T) => number): void {
  if (list.some((one, index) => index > 0 && number(list[index - 1]!) > number(one)))
    list.sort((a, b) => number(a) - number(b));
}

/** Whether names can be double, in a list in order of number: names of one list differ by nothing else. */
const hasTwins = (list: readonly { readonly number: number }[]): boolean =>
  list.some((one, index) => index > 0 && list[index - 1]!.number === one.number);

function isSameHome(a: PieceHome | null, b: PieceHome): boolean {
  if (a === null || a === b) return a === b;
  return (
    a.run === b.run &&
    a.number === b.number &&
    isSameList(a.letters, b.letters) &&
    isSameList(a.numbersEver, b.numbersEver)
  );
}

function isSameList(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((one, index) => one === b[index]);
}
