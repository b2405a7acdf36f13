import type { Entry } from './entry.ts';
import { compareEntries, inOrder, placeOf } from './order.ts';

export interface FoldRules<State> {
  /** The threads an entry belongs to: "campaign", "hole:<id>". Depends on nothing but the entry. */
  readonly threadsOf: (entry: Entry) => readonly string[];
  readonly initial: (thread: string) => State;
  /** Changes `state` in place. Must depend on state and entry alone, and not keep `state`. */
  readonly apply: (state: State, entry: Entry, thread: string) => void;
}

export interface FoldFailure {
  readonly thread: string;
  readonly entry: Entry;
  readonly message: string;
}

/**
 * State as the fold of entries in total order, whatever the order of arrival (J1). Each thread is folded by
 * itself: an entry that comes last is applied on top; one that comes late makes its own threads, and no others,
 * be folded anew. Both happen when the state is next asked for, so that a thousand late entries cost one refold.
 */
export interface Fold<State> {
  /** Returns the threads touched. An entry already there changes nothing (J2). */
  add(entries: readonly Entry[]): readonly string[];
  /** Undefined for a thread nobody wrote to. The object is changed in place by later calls. */
  state(thread: string): State | undefined;
  /** Grows whenever a thread gets an entry; 0 where there is none. */
  revision(thread: string): number;
  threads(): readonly string[];
  /** The thread's entries in total order. */
  entries(thread: string): readonly Entry[];
  /** Entries at which `apply` threw. A reducer that keeps its promise never does; the entry stays in any case (J5). */
  failures(): readonly FoldFailure[];
}

interface Thread<State> {
  readonly entries: Entry[];
  state: State;
  /** How many of `entries` are in `state`. */
  applied: number;
  revision: number;
  failures: FoldFailure[];
}

export function createFold<State>(rules: FoldRules<State>): Fold<State> {
  const threads = new Map<string, Thread<State>>();

  function threadOf(name: string): Thread<State> {
    let thread = threads.get(name);
    if (thread === undefined) {
      const state = rules.initial(name);
      thread = { entries: [], state, applied: 0, revision: 0, failures: [] };
      threads.set(name, thread);
    }
    return thread;
  }

  function insert(name: string, entry: Entry): boolean {
    const thread = threadOf(name);
    const last = thread.entries.at(-1);
    if (last === undefined || compareEntries(last, entry) < 0) thread.entries.push(entry);
    else {
      // The order tells any two entries apart, so one that is there already stands at its place.
      const place = placeOf(thread.entries, entry);
      if (thread.entries[place]?.hash === entry.hash) return false;
      thread.entries.splice(place, 0, entry);
      if (place < thread.applied) {
        thread.state = rules.initial(name);
        thread.applied = 0;
        thread.failures = [];
      }
    }
    thread.revision += 1;
    return true;
  }

  function settle(name: string, thread: Thread<State>): void {
    for (; thread.applied < thread.entries.length; thread.applied += 1) {
      const entry = thread.entries[thread.applied]!;
      try {
        rules.apply(thread.state, entry, name);
      } catch (error) {
        const message = error instanceof Error ? error.message : String(error);
        thread.failures.push({ thread: name, entry, message });
      }
    }
  }

  return {
    add(entries) {
      const touched = new Set<string>();
      // In order, so that a batch that came shuffled is appended and not spliced.
      for (const entry of inOrder(entries)) {
        for (const name of rules.threadsOf(entry)) {
          if (insert(name, entry)) touched.add(name);
        }
      }
      return [...touched];
    },
    state(name) {
      const thread = threads.get(name);
      if (thread === undefined) return undefined;
      settle(name, thread);
      return thread.state;
    },
    revision: (name) => threads.get(name)?.revision ?? 0,
    threads: () => [...threads.keys()],
    entries: (name) => threads.get(name)?.entries ?? [],
    failures() {
      for (const [name, thread] of threads) settle(name, thread);
      return [...threads.values()].flatMap((thread) => thread.failures);
    },
  };
}
