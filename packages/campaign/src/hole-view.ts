import { nameConflicts, readingConflicts } from './conflicts.ts';
import { type PieceHome, pieceView } from './core/view.ts';
import { runView } from './drilling/view.ts';
import { type Group, groupsOf, numbersEver, thingView, wordsEver } from './thing-view.ts';
import { rootOf, type ThreadState, waitingIn } from './thread.ts';
import type { HoleView, PieceView, RunView, ThingView } from './view.ts';

/** Everything about one hole. Null while the entry that opened it has not arrived. */
export function holeView(state: ThreadState): HoleView | null {
  const groups = groupsOf(state);
  const of = (kind: string): readonly Group[] => groups.filter((group) => group.root.kind.kind === kind);
  const hole = of('hole')[0];
  if (hole === undefined) return null;
  const bare = thingView(hole, '');
  const letter = bare.readings.letter?.text ?? '?';
  // The present letter last, as names are made with it.
  const letters = [...wordsEver(hole, 'letter').filter((one) => one !== letter), letter];
  const { byRun, homeless } = piecesByRun(state, of('piece'), of('run'), letters);
  const runs = of('run')
    .map((group) => runView(group, letters, byRun.get(group.root.id) ?? []))
    .sort((a, b) => a.number - b.number);
  const zeros = of('zero').map((group, index) => thingView(group, `Zero ${index + 1}`));
  const soundings = of('sounding').map((group) => soundingView(state, group, runs));
  const pieces = runs.flatMap((run) => run.pieces);
  return {
    ...bare,
    name: bare.readings.core?.text ?? letter,
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

function piecesByRun(
  state: ThreadState,
  pieces: readonly Group[],
  runs: readonly Group[],
  letters: readonly string[],
): { readonly byRun: ReadonlyMap<string, readonly PieceView[]>; readonly homeless: number } {
  const runGroups = new Map(runs.map((group) => [group.root.id, group]));
  const byRun = new Map<string, PieceView[]>();
  let homeless = 0;
  for (const group of pieces) {
    const said = thingView(group, '').readings.run?.text ?? '';
    const run = runGroups.get(rootOf(state, said)?.id ?? '');
    if (run === undefined) {
      homeless += 1;
      continue;
    }
    const list = byRun.get(run.root.id);
    const piece = pieceView(group, homeOf(state, group, run, runGroups, letters));
    if (list === undefined) byRun.set(run.root.id, [piece]);
    else list.push(piece);
  }
  return { byRun, homeless };
}

function homeOf(
  state: ThreadState,
  group: Group,
  run: Group,
  runs: ReadonlyMap<string, Group>,
  letters: readonly string[],
): PieceHome {
  const ever = wordsEver(group, 'run').flatMap((id) => {
    const other = runs.get(rootOf(state, id)?.id ?? '');
    return other === undefined ? [] : numbersEver(other, 'number');
  });
  return {
    run: run.root.id,
    letters,
    number: thingView(run, '').readings.number?.value ?? null,
    numbersEver: ever,
  };
}

/** A sounding is named after its run: "Sounding after B-R034". */
function soundingView(state: ThreadState, group: Group, runs: readonly RunView[]): ThingView {
  const bare = thingView(group, '');
  const id = rootOf(state, bare.readings.afterRun?.text ?? '')?.id;
  const run = runs.find((one) => one.id === id);
  return { ...bare, name: `Sounding after ${run?.name ?? 'an unknown run'}` };
}
