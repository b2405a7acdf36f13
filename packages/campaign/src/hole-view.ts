import { nameConflicts, readingConflicts } from './conflicts.ts';
import { type PieceHome, pieceView } from './core/view.ts';
import { runView } from './drilling/view.ts';
import { type Group, groupsOf, numberIn, numbersEver, textIn, thingView, wordsEver } from './thing-view.ts';
import { rootOf, type ThreadState, waitingIn } from './thread.ts';
import type { HoleView, PieceView, RunView, ThingView } from './view.ts';

/** Everything about one hole. Null while the entry that opened it has not arrived. */
export function holeView(state: ThreadState): HoleView | null {
  const byKind = new Map<string, Group[]>();
  for (const group of groupsOf(state)) {
    const same = byKind.get(group.root.kind.kind);
    if (same === undefined) byKind.set(group.root.kind.kind, [group]);
    else same.push(group);
  }
  const of = (kind: string): readonly Group[] => byKind.get(kind) ?? [];
  const hole = of('hole')[0];
  if (hole === undefined) return null;
  const bare = thingView(hole, (readings) => ({
    name: textIn({ readings }, 'core') || textIn({ readings }, 'letter') || '?',
  }));
  const letter = textIn(bare, 'letter') || '?';
  // The present letter last, as names are made with it.
  const letters = [...wordsEver(hole, 'letter').filter((one) => one !== letter), letter];
  const { byRun, homeless } = piecesByRun(state, of('piece'), of('run'), letters);
  const runs = of('run')
    .map((group) => runView(group, letters, byRun.get(group.root.id) ?? []))
    .sort((a, b) => a.number - b.number);
  const zeros = of('zero').map((group, index) => thingView(group, () => ({ name: `Zero ${index + 1}` })));
  const soundings = of('sounding').map((group) => soundingView(state, group, runs));
  const pieces = runs.flatMap((run) => run.pieces);
  return {
    ...bare,
    letter,
    zeros,
    runs,
    soundings,
    conflicts: [
      ...nameConflicts(runs, 'runs'),
      ...runs.flatMap((run) => nameConflicts(run.pieces, `pieces of ${run.id}`)),
      ...readingConflicts([bare, ...zeros, ...runs, ...pieces, ...soundings]),
    ],
    notUnderstood: state.notUnderstood.size,
    waiting: waitingIn(state) + homeless,
  };
}

/** A run as its pieces' names need it. */
interface Home {
  readonly id: string;
  readonly number: number | null;
  readonly numbersEver: readonly number[];
  readonly pieces: PieceView[];
}

function piecesByRun(
  state: ThreadState,
  pieces: readonly Group[],
  runs: readonly Group[],
  letters: readonly string[],
): { readonly byRun: ReadonlyMap<string, readonly PieceView[]>; readonly homeless: number } {
  const homes = new Map<string, Home>();
  for (const group of runs) {
    const ever = numbersEver(group, 'number');
    const number =
      ever.length < 2
        ? (ever[0] ?? null)
        : numberIn(
            thingView(group, () => ({ name: '' })),
            'number',
          );
    homes.set(group.root.id, { id: group.root.id, number, numbersEver: ever, pieces: [] });
  }
  let homeless = 0;
  for (const group of pieces) {
    const said = wordsEver(group, 'run');
    const now =
      said.length < 2
        ? (said[0] ?? '')
        : textIn(
            thingView(group, () => ({ name: '' })),
            'run',
          );
    const home = homes.get(rootOf(state, now)?.id ?? '');
    if (home === undefined) homeless += 1;
    else home.pieces.push(pieceView(group, namedBy(state, said, home, homes, letters)));
  }
  return { byRun: new Map([...homes.values()].map((home) => [home.id, home.pieces])), homeless };
}

function namedBy(
  state: ThreadState,
  said: readonly string[],
  home: Home,
  homes: ReadonlyMap<string, Home>,
  letters: readonly string[],
): PieceHome {
  const numbers =
    said.length === 1
      ? home.numbersEver
      : said.flatMap((id) => homes.get(rootOf(state, id)?.id ?? '')?.numbersEver ?? []);
  return { run: home.id, letters, number: home.number, numbersEver: numbers };
}

/** A sounding is named after its run: "Sounding after B-R034". */
function soundingView(state: ThreadState, group: Group, runs: readonly RunView[]): ThingView {
  return thingView(group, (readings) => {
    const id = rootOf(state, textIn({ readings }, 'afterRun'))?.id;
    const run = runs.find((one) => one.id === id);
    return { name: `Sounding after ${run?.name ?? 'an unknown run'}` };
  });
}
