import { kindText } from '../texts/called.ts';
import { type Sentence, sentence } from '../texts/sentence.ts';
import type { ConflictView, HoleView } from '../view.ts';

/** Kinds whose ice is added up: of two that bear one name, both are in every sum until a person settles it. */
const added: ReadonlySet<string> = new Set(['run', 'piece']);

/**
 * What a conflict of two runs (or pieces) of one number means for depths and totals: both are in them. Null for
 * conflicts that count nothing twice.
 */
export function countedTwice(hole: HoleView, conflict: ConflictView): Sentence | null {
  if (conflict.kind !== 'same name') return null;
  const first = hole.runs
    .flatMap((run) => [run, ...run.pieces])
    .find((thing) => thing.id === conflict.things[0]);
  if (first === undefined || !added.has(first.kind)) return null;
  return sentence(conflict.things.length === 2 ? 'counted.twice' : 'counted.several', {
    name: first.name,
    count: conflict.things.length,
    things: kindText(first.kind, conflict.things.length),
  });
}

/** Everything of a hole that is in its depths and totals more than once, in words; empty where nothing is. */
export const allCountedTwice = (hole: HoleView): readonly Sentence[] =>
  hole.conflicts.map((conflict) => countedTwice(hole, conflict)).filter((one) => one !== null);
