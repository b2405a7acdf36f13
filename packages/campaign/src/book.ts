import { createFold, type Entry } from '@firnbook/journal';
import { apply } from './apply.ts';
import type { Command, Context, Decision } from './command.ts';
import { decide } from './decide.ts';
import { holeView } from './hole-view.ts';
import { createRights } from './people/book-rights.ts';
import type { RightsTimeline } from './people/timeline.ts';
import { campaignView } from './setup/view.ts';
import { sentence } from './texts/sentence.ts';
import { CAMPAIGN_THREAD, emptyThread, holeOf, holeThread } from './thread.ts';
import type { CampaignView, ConflictView, HoleView } from './view.ts';

/** One campaign's entries folded into what people see, in memory, on any device. */
export interface Book {
  /** Take entries in, in any order, as often as one likes (J1, J2). Returns the ids of the holes they touch. */
  add(entries: readonly Entry[]): readonly string[];
  /** The same object until an entry changes it. */
  view(): CampaignView;
  /** By the hole's id; undefined where this book has no such hole. The same object until an entry changes it. */
  holeView(hole: string): HoleView | undefined;
  /** Whether the command can be taken, and what it would write. Changes nothing. */
  decide(command: Command, context: Context): Decision;
}

/** A hole's view, made of what its thread says and of what rights say of that. */
interface KeptHole {
  readonly revision: number;
  readonly timeline: RightsTimeline | null;
  readonly bare: HoleView | null;
  readonly view: HoleView | null;
}

export function createBook(): Book {
  const threadsByHole = new Map<string | null, readonly string[]>([[null, [CAMPAIGN_THREAD]]]);
  const fold = createFold({ threadsOf, initial: emptyThread, apply });
  const cache = new Map<string, KeptHole>();
  const rights = createRights(fold);
  /** Hashes by device and sequence. */
  const chains = new Map<string, string[]>();
  const cloned = new Set<string>();
  let campaign = '';
  let whole: CampaignView | null = null;

  /** The one thread an entry is told in. One list for all entries of a hole. */
  function threadsOf(entry: Entry): readonly string[] {
    const hole = holeOf(entry);
    const known = threadsByHole.get(hole);
    if (known !== undefined) return known;
    const threads = [holeThread(hole ?? '')];
    threadsByHole.set(hole, threads);
    return threads;
  }

  function watchChain({ header, hash }: Entry): void {
    let chain = chains.get(header.device);
    if (chain === undefined) chains.set(header.device, (chain = []));
    const there = chain[header.sequence];
    if (there === undefined) chain[header.sequence] = hash;
    else if (there !== hash) cloned.add(header.device);
  }

  function hole(thread: string): HoleView | null {
    const revision = fold.revision(thread);
    const timeline = rights.timeline();
    const kept = cache.get(thread);
    if (kept?.revision === revision && kept.timeline === timeline) return kept.view;
    const state = fold.state(thread);
    const bare = kept?.revision === revision ? kept.bare : state === undefined ? null : holeView(state);
    const view = bare === null ? null : rights.marked(bare, thread);
    cache.set(thread, { revision, timeline, bare, view });
    return view;
  }

  function view(): CampaignView {
    if (whole !== null) return whole;
    const holes: HoleView[] = [];
    let orphans = 0;
    for (const thread of fold.threads()) {
      if (thread === CAMPAIGN_THREAD) continue;
      const one = hole(thread);
      if (one === null) orphans += fold.entries(thread).length;
      else holes.push(one);
    }
    const state = fold.state(CAMPAIGN_THREAD) ?? emptyThread();
    const clones = cloneConflicts([...cloned]);
    whole = campaignView(campaign, state, holes, clones, orphans, rights.timeline(), rights.own());
    return whole;
  }

  return {
    add(entries) {
      if (campaign === '' && entries[0] !== undefined) campaign = entries[0].header.campaign;
      for (const entry of entries) {
        watchChain(entry);
        rights.watch(entry);
      }
      const touched = fold.add(entries);
      if (touched.length > 0) whole = null;
      return touched
        .filter((thread) => thread !== CAMPAIGN_THREAD)
        .map((thread) => thread.slice('hole:'.length));
    },
    view,
    holeView: (id) => hole(`hole:${id}`) ?? undefined,
    decide: (command, context) => decide(view(), command, context),
  };
}

/** Two entries with one place in a device's chain: its storage was copied and both copies write. */
function cloneConflicts(devices: readonly string[]): readonly ConflictView[] {
  return [...devices].sort().map((device) => ({
    key: `cloned:${device}`,
    kind: 'cloned device' as const,
    says: sentence('conflict.cloned', { device }),
    things: [],
  }));
}
