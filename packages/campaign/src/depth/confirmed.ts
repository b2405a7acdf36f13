import type { Finding } from '@firnbook/science/depth';
import { isCalled, standing } from '../find.ts';
import { textIn } from '../thing-view.ts';
import type { HoleView, ThingView } from '../view.ts';

/**
 * Whether a person has looked at the reading of a finding and says that it is right. It holds for the reading as it
 * stood then: once it is corrected, the question is asked again.
 */
export function isConfirmed(hole: HoleView, finding: Finding): boolean {
  return confirmationOf(hole, finding) !== undefined;
}

/** The thing that says so. */
export function confirmationOf(
  hole: HoleView,
  { which, field }: { readonly which: string; readonly field: string },
): ThingView | undefined {
  const said = standing(hole.others['confirmed reading']);
  if (said.length === 0) return undefined;
  const thing = readThing(hole, which);
  const entry = thing === undefined ? undefined : entryOf(thing, field);
  return said.find(
    (one) =>
      isCalled(thing ?? { id: which }, textIn(one, 'of')) &&
      textIn(one, 'field') === field &&
      textIn(one, 'entry') === (entry ?? 'none'),
  );
}

/** The entry that says a field of a thing now; undefined where it has never been read (ice that nobody logged as lost). */
export function readingEntry(hole: HoleView, thing: string, field: string): string | undefined {
  const read = readThing(hole, thing);
  return read === undefined ? undefined : entryOf(read, field);
}

const entryOf = ({ readings }: ThingView, field: string): string | undefined =>
  Object.hasOwn(readings, field) ? readings[field]!.entry : undefined;

function readThing(hole: HoleView, id: string): ThingView | undefined {
  const things: readonly ThingView[] = [
    ...hole.runs,
    ...hole.runs.flatMap((run) => run.pieces),
    ...hole.soundings,
    ...hole.zeros,
    ...(hole.others['cable check'] ?? []),
    ...(hole.others['zero check'] ?? []),
  ];
  return things.find((one) => isCalled(one, id));
}
