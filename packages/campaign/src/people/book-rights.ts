import type { Entry, Fold } from '@firnbook/journal';
import { isCalled } from '../find.ts';
import { kindLoggedBy } from '../kinds.ts';
import { campaignKind, personKind } from '../setup/schema.ts';
import { keptView, readingsOf, textIn } from '../thing-view.ts';
import { CAMPAIGN_THREAD, holeOf, rootsOf, type ThreadState } from '../thread.ts';
import type { HoleView } from '../view.ts';
import { usedRights } from './conflicts.ts';
import { type Looked, lookThrough, type Overstep, unsettled } from './oversteps.ts';
import { settledRightKind } from './schema.ts';
import { isLink } from './subject.ts';
import { type RightsTimeline, rightsTimeline } from './timeline.ts';

/** What a book knows of rights, made anew only when an entry that bears on them has come. */
export interface BookRights {
  watch(entry: Entry): void;
  /** The same object until rights, or how somebody is called, may have changed. */
  timeline(): RightsTimeline | null;
  /** Of the campaign's own thread. */
  own(): readonly Overstep[];
  /** The hole with what was written there without the right to it among its conflicts; itself where there is nothing. */
  marked(hole: HoleView, thread: string): HoleView;
}

export function createRights(fold: Fold<ThreadState>): BookRights {
  let isStale = false;
  let timeline: RightsTimeline | null = null;
  const looked = new Map<string, Looked>();

  function current(): RightsTimeline | null {
    if (!isStale) return timeline;
    isStale = false;
    const state = fold.state(CAMPAIGN_THREAD);
    timeline = state === undefined ? null : rightsTimeline(state, fold.entries(CAMPAIGN_THREAD));
    return timeline;
  }

  function of(thread: string): readonly Overstep[] {
    const now = current();
    const state = fold.state(thread);
    if (now === null || state === undefined) return [];
    const found = lookThrough(state, fold.entries(thread), now, looked.get(thread));
    looked.set(thread, found);
    return unsettled(found);
  }

  return {
    watch(entry) {
      const { kind } = entry.header;
      if (!isStale && bears(kind) && holeOf(entry) === null) isStale = true;
    },
    timeline: current,
    own: () => of(CAMPAIGN_THREAD),
    marked(hole, thread) {
      const wrong = of(thread);
      if (wrong.length === 0) return hole;
      const campaign = fold.state(CAMPAIGN_THREAD)!;
      const people = rootsOf(campaign, personKind).map((person) =>
        keptView(person, textIn({ readings: readingsOf(person) }, 'initials')),
      );
      const used = usedRights(
        wrong,
        people,
        ({ thing }) => (isCalled(hole, thing.id) ? hole : (thing.view ?? undefined)),
        thread,
      );
      return { ...hole, conflicts: [...hole.conflicts, ...used] };
    },
  };
}

/** Whether an entry of the campaign's own thread can change rights, or the names of those who have them. */
function bears(word: string): boolean {
  if (isLink(word)) return true;
  const kind = kindLoggedBy(word);
  return kind === campaignKind || kind === personKind || kind === settledRightKind;
}
