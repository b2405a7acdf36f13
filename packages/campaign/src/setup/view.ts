import { nameConflicts, readingConflicts } from '../conflicts.ts';
import type { Kind } from '../kind.ts';
import { allOf, otherThings } from '../others.ts';
import { usedRights } from '../people/conflicts.ts';
import type { Overstep } from '../people/oversteps.ts';
import type { RightsTimeline } from '../people/timeline.ts';
import { keptView, namesOf, readingsOf, textIn } from '../thing-view.ts';
import { rootsOf, type ThreadState, waitingIn } from '../thread.ts';
import type { CampaignView, ConflictView, HoleView, ThingView } from '../view.ts';
import { campaignKind, deviceKind, personKind } from './schema.ts';

/**
 * The campaign with its holes.
 *
 * @param id as the entries' headers say
 * @param cloned conflicts of devices, which no thread can see by itself
 * @param orphans entries of holes that nobody has opened here yet
 * @param timeline of rights; null where nothing was said about them
 * @param wrong what was written in the campaign's own thread without the right to it
 */
export function campaignView(
  id: string,
  state: ThreadState,
  holes: readonly HoleView[],
  cloned: readonly ConflictView[],
  orphans: number,
  timeline: RightsTimeline | null,
  wrong: readonly Overstep[],
): CampaignView {
  const of = (kind: Kind, field: string): readonly ThingView[] =>
    rootsOf(state, kind).map((thing) => keptView(thing, textIn({ readings: readingsOf(thing) }, field)));
  const campaigns = of(campaignKind, 'name');
  const people = of(personKind, 'initials');
  const devices = of(deviceKind, 'name');
  const opened = campaigns[0] ?? null;
  const now = timeline?.steps.at(-1)?.rights;
  // By id where a letter is double, so that the order of arrival does not show (J1).
  const ordered = [...holes].sort((a, b) => compareText(a.letter, b.letter) || compareText(a.id, b.id));
  const named = namesOf([...people, ...holes.map((hole) => ({ ...hole, name: hole.letter }))]);
  const told = otherThings(state, 'campaign', ownViews, (thing) => named.get(thing));
  // Opened twice, by two devices that had not heard of each other: what the second said stays in sight (J3).
  const others = campaigns.length < 2 ? told : { [campaignKind.kind]: campaigns.slice(1), ...told };
  return {
    id,
    name: opened?.name ?? '',
    invented: opened !== null && textIn(opened, 'invented') === 'yes',
    people,
    holes: ordered,
    opened,
    devices,
    others,
    ...(now === undefined ? {} : { rights: now }),
    conflicts: [
      ...cloned,
      ...nameConflicts(people, 'people'),
      ...nameConflicts(
        ordered.map((hole) => ({ ...hole, name: hole.letter })),
        'holes',
      ),
      ...usedRights(wrong, people, ({ thing }) => thing.view ?? undefined, 'campaign'),
      ...readingConflicts([...campaigns.slice(0, 1), ...people, ...devices, ...allOf(others)]),
    ],
    notUnderstood: state.notUnderstood.size,
    waiting: waitingIn(state) + orphans,
  };
}

/** Kinds that this file makes views of. */
const ownViews: ReadonlySet<string> = new Set([campaignKind, personKind, deviceKind].map(({ kind }) => kind));

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
