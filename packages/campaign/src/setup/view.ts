import { nameConflicts, readingConflicts } from '../conflicts.ts';
import type { Kind } from '../kind.ts';
import { keptView, readingsOf, textIn } from '../thing-view.ts';
import { rootsOf, type ThreadState, waitingIn } from '../thread.ts';
import type { CampaignView, ConflictView, HoleView, ThingView } from '../view.ts';
import { campaignKind, deviceKind, personKind } from './schema.ts';

/**
 * The campaign with its holes.
 *
 * @param id as the entries' headers say
 * @param cloned conflicts of devices, which no thread can see by itself
 * @param orphans entries of holes that nobody has opened here yet
 */
export function campaignView(
  id: string,
  state: ThreadState,
  holes: readonly HoleView[],
  cloned: readonly ConflictView[],
  orphans: number,
): CampaignView {
  const of = (kind: Kind, field: string): readonly ThingView[] =>
    rootsOf(state, kind).map((thing) => keptView(thing, textIn({ readings: readingsOf(thing) }, field)));
  const campaigns = of(campaignKind, 'name');
  const people = of(personKind, 'initials');
  const devices = of(deviceKind, 'name');
  const opened = campaigns[0] ?? null;
  // By id where a letter is double, so that the order of arrival does not show (J1).
  const ordered = [...holes].sort((a, b) => compareText(a.letter, b.letter) || compareText(a.id, b.id));
  return {
    id,
    name: opened?.name ?? '',
    invented: opened !== null && textIn(opened, 'invented') === 'yes',
    people,
    holes: ordered,
    opened,
    devices,
    conflicts: [
      ...cloned,
      ...nameConflicts(people, 'people'),
      ...nameConflicts(
        ordered.map((hole) => ({ ...hole, name: hole.letter })),
        'holes',
      ),
      ...readingConflicts([...campaigns, ...people, ...devices]),
    ],
    notUnderstood: state.notUnderstood.size,
    waiting: waitingIn(state) + orphans,
  };
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
