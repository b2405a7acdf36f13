import { nameConflicts, readingConflicts } from '../conflicts.ts';
import { groupsOf, textIn, thingView } from '../thing-view.ts';
import { type ThreadState, waitingIn } from '../thread.ts';
import type { CampaignView, ConflictView, HoleView, ThingView } from '../view.ts';

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
  const groups = groupsOf(state);
  const of = (kind: string, field: string): readonly ThingView[] =>
    groups
      .filter((group) => group.root.kind.kind === kind)
      .map((group) => thingView(group, (readings) => ({ name: textIn({ readings }, field) })));
  const campaigns = of('campaign', 'name');
  const people = of('person', 'initials');
  const devices = of('device', 'name');
  const opened = campaigns[0] ?? null;
  return {
    id,
    name: opened?.name ?? '',
    invented: opened !== null && textIn(opened, 'invented') === 'yes',
    people,
    holes: [...holes].sort((a, b) => (a.letter < b.letter ? -1 : a.letter > b.letter ? 1 : 0)),
    opened,
    devices,
    conflicts: [
      ...cloned,
      ...nameConflicts(people, 'people'),
      ...nameConflicts(
        holes.map((hole) => ({ ...hole, name: hole.letter })),
        'holes',
      ),
      ...readingConflicts([...campaigns, ...people, ...devices]),
    ],
    notUnderstood: state.notUnderstood.size,
    waiting: waitingIn(state) + orphans,
  };
}
