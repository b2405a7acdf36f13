import { FIRST_STAMP, hear, stampAhead, tick } from '../clock.ts';
import type { Coverage, Have } from '../coverage.ts';
import type { Sealed } from '../entry.ts';
import type { MemoryDisk } from '../memory-store.ts';
import type { Replica } from '../replica.ts';
import type { Rules } from '../rules.ts';
import type { Store } from '../store.ts';
import { CORRECTED, SAID } from './book.ts';

/**
 * A protocol with one mistake in it. The simulator runs it in place of the honest one and must notice. A mutant
 * that lives shows a fault that is missing from the simulator, or a check.
 */
export interface Mutant {
  readonly name: string;
  /** Made anew for each process. */
  readonly rules?: (
    honest: Rules,
    at: { readonly now: () => number; readonly isServer: boolean },
  ) => Partial<Rules>;
  readonly store?: (store: Store, disk: MemoryDisk, isServer: boolean) => Store;
  readonly replica?: (replica: Replica, isServer: boolean) => Replica;
  /** The restored backup keeps its epoch. */
  readonly keepsEpoch?: boolean;
}

export const HONEST: Mutant = { name: 'honest' };

export const MUTANTS: readonly Mutant[] = [
  {
    name: 'takes an entry whose predecessor is not there',
    rules: (honest) => ({
      admit: (entry, campaign, find) => (honest.admit(entry, campaign, find) === 'held' ? 'held' : 'new'),
    }),
  },
  {
    name: 'takes a wrong signature',
    rules: () => ({ prove: async (accepted) => accepted }),
  },
  {
    name: 'takes an entry whose signature was left behind',
    rules: (honest) => ({
      prove: async ({ entries, refused }, keys, find, verify) => {
        const bearing = entries.filter(({ sealed }) => sealed.signature !== null);
        const proven = await honest.prove({ entries: bearing, refused }, keys, find, verify);
        const good = new Set(proven.entries);
        return {
          entries: entries.filter((entry) => entry.sealed.signature === null || good.has(entry)),
          refused: proven.refused,
        };
      },
    }),
  },
  {
    name: 'takes what was chosen for an earlier life of its store',
    replica: (replica) => {
      const basis = replica.ask('nobody').epoch;
      return overridden(replica, {
        answer: (request) => replica.answer({ ...request, basis }),
        hear: (peer, reply) => replica.hear(peer, { ...reply, basis }),
      });
    },
  },
  {
    name: 'offers only what it wrote itself',
    replica: (replica, isServer) => {
      if (isServer) return replica;
      const own = (sealed: Sealed) => sealed.head.includes(`"device":"${replica.device}"`);
      return overridden(replica, {
        ask: (peer) => {
          const request = replica.ask(peer);
          return { ...request, entries: request.entries.filter(own) };
        },
      });
    },
  },
  {
    name: 'server answers before the flush',
    store: (store, _, isServer) => (isServer ? lazy(store) : store),
  },
  {
    name: 'tablet says saved before the flush',
    store: (store, _, isServer) => (isServer ? store : lazy(store)),
  },
  {
    name: 'the clock does not move on what it hears',
    rules: () => ({ stamp: (_, now, tip) => tick(tip?.header.stamp ?? FIRST_STAMP, now) }),
  },
  {
    name: 'the clock is forgotten at a restart',
    rules: (honest) => {
      let clock = FIRST_STAMP;
      return {
        stamp: (_, now) => (clock = tick(clock, now)),
        admit: (entry, campaign, find) => {
          clock = hear(clock, entry.header.stamp);
          return honest.admit(entry, campaign, find);
        },
      };
    },
  },
  { name: 'the wall clock is the order', rules: () => ({ stamp: (_, now) => tick(FIRST_STAMP, now) }) },
  {
    name: 'the sequence is forgotten at a restart',
    rules: (honest) => {
      let hasWritten = false;
      return {
        tip: (ledger, device) => (hasWritten ? honest.tip(ledger, device) : undefined),
        stamp: (latest, now, tip) => {
          hasWritten = true;
          return honest.stamp(latest, now, tip);
        },
      };
    },
  },
  { name: 'a restored backup keeps its epoch', keepsEpoch: true },
  {
    name: 'a restored backup goes on as the same device',
    store: (store) =>
      overridden(store, {
        note: async (name) => {
          const text = await store.note(name);
          if (name !== 'device' || text === null) return text;
          const noted = JSON.parse(text);
          const epoch = await store.epoch();
          return JSON.stringify(
            noted.signing === undefined ? { ...noted, epoch } : { signing: { ...noted.signing, epoch } },
          );
        },
      }),
  },
  {
    name: 'late news of the peer are believed',
    replica: (replica) =>
      overridden(replica, {
        hear: (peer, reply) => replica.hear(peer, { ...reply, turn: replica.ask(peer).turn }),
      }),
  },
  {
    name: 'ticks of an earlier life of the server are kept',
    replica: (replica) => {
      const ticked = new Set<string>();
      return overridden(replica, {
        safety: (peer) => {
          const safety = replica.safety(peer);
          for (const entry of replica.ledger.entries()) if (safety.holds(entry)) ticked.add(entry.hash);
          return { ...safety, holds: (entry) => ticked.has(entry.hash) };
        },
      });
    },
  },
  {
    name: 'ticks when it sends',
    replica: (replica) => {
      const sent = new Set<string>();
      return overridden(replica, {
        ask: (peer) => {
          const request = replica.ask(peer);
          for (const sealed of request.entries) sent.add(sealed.hash);
          return request;
        },
        safety: (peer) => {
          const safety = replica.safety(peer);
          return { ...safety, holds: (entry) => sent.has(entry.hash) || safety.holds(entry) };
        },
      });
    },
  },
  {
    name: 'one entry per device and sequence, the first wins',
    rules: (honest) => {
      const first = new Map<string, string>();
      return {
        admit: (entry, campaign, find) => {
          const answer = honest.admit(entry, campaign, find);
          if (answer !== 'new') return answer;
          const place = `${entry.header.device} ${entry.header.sequence}`;
          const other = first.get(place);
          if (other !== undefined && other !== entry.hash) return { problem: 'taken' };
          first.set(place, entry.hash);
          return 'new';
        },
      };
    },
  },
  {
    name: 'stores what it has already',
    rules: (honest) => ({
      admit: (entry, campaign, find) => {
        const answer = honest.admit(entry, campaign, find);
        return answer === 'held' ? 'new' : answer;
      },
    }),
    store: (store, disk) =>
      overridden(store, {
        append: async (batch) => {
          const again = batch.filter((sealed) => disk.rows.some((row) => row.hash === sealed.hash));
          await store.append(batch);
          disk.rows.push(...again);
        },
      }),
  },
  {
    name: 'offers device by device, not in total order',
    rules: (honest) => ({
      offer: (ledger, coverage, limit) => {
        const { entries } = honest.offer(ledger, coverage, { entries: Infinity, characters: Infinity });
        const byDevice = [...entries].sort(
          (a, b) =>
            (a.header.device < b.header.device ? -1 : a.header.device > b.header.device ? 1 : 0) ||
            a.header.sequence - b.header.sequence,
        );
        return { entries: byDevice.slice(0, limit?.entries), more: byDevice.length > (limit?.entries ?? 0) };
      },
    }),
  },
  {
    name: 'refuses kinds it does not know',
    rules: (honest) => ({
      admit: (entry, campaign, find) =>
        [SAID, CORRECTED].includes(entry.header.kind)
          ? honest.admit(entry, campaign, find)
          : { problem: 'unknown' },
    }),
  },
  {
    name: 'refuses entries from the future',
    rules: (honest, { now }) => ({
      admit: (entry, campaign, find) =>
        stampAhead(entry.header.stamp, now()) > 86_400_000
          ? { problem: 'a day ahead' }
          : honest.admit(entry, campaign, find),
    }),
  },
  {
    name: 'empties the outbox when it sends',
    replica: (replica, isServer) => {
      if (isServer) return replica;
      const sent = new Set<string>();
      return overridden(replica, {
        ask: (peer) => {
          const request = replica.ask(peer);
          const entries = request.entries.filter((sealed) => !sent.has(sealed.hash));
          for (const sealed of entries) sent.add(sealed.hash);
          return { ...request, entries };
        },
      });
    },
  },
  {
    name: 'sends by time since the last visit',
    replica: (replica, isServer) => {
      if (!isServer) return replica;
      const latest = new Map<string, string>();
      const stampOf = (sealed: Sealed) => replica.ledger.get(sealed.hash)!.header.stamp;
      return overridden(replica, {
        answer: async (request) => {
          const reply = await replica.answer(request);
          const since = latest.get(request.from) ?? '';
          const entries = reply.entries.filter((sealed) => stampOf(sealed) > since);
          latest.set(request.from, entries.map(stampOf).reduce(hear, since));
          return { ...reply, entries };
        },
      });
    },
  },
  {
    name: 'compares chains by number, not by hash',
    rules: () => ({
      coverageOf: (_, have): Coverage => ({
        holds: ({ header }) => (have[header.device] ?? []).some((head) => head.sequence >= header.sequence),
        isAhead: () => false,
        unsure: {},
      }),
    }),
  },
  {
    name: 'a difference is put on whatever is known',
    rules: () => ({
      wholeOf: (known, said) =>
        said.since === undefined || known?.epoch !== said.epoch ? said.have : { ...known.have, ...said.have },
    }),
  },
  {
    name: 'a difference is put on what was heard last, from whomever',
    rules: () => {
      let last: Have = {};
      return {
        wholeOf: (_, said) => {
          last = said.since === undefined ? said.have : { ...last, ...said.have };
          return last;
        },
      };
    },
  },
  {
    name: 'a mark is believed across the lives of a store',
    rules: (honest) => ({
      wholeOf: (known, said) =>
        honest.wholeOf(known === undefined ? known : { ...known, epoch: said.epoch }, said),
    }),
    replica: (replica, isServer) => {
      if (!isServer) return replica;
      return overridden(replica, {
        answer: async (request) => {
          const reply = await replica.answer(request);
          const { knows } = request;
          if (reply.mark !== undefined) marks.add(reply.mark);
          const isOfBefore = reply.since === undefined && knows !== undefined && marks.has(knows);
          return isOfBefore ? { ...reply, have: {}, mark: knows, since: knows } : reply;
        },
      });
    },
  },
  {
    name: 'never reads its store again',
    store: (store) => {
      let isRead = false;
      return overridden(store, {
        loadAfter: async () => {
          if (isRead) return [];
          isRead = true;
          return store.load();
        },
      });
    },
  },
];

/** Marks of what the server has ever said: what a mutant's server keeps beside its store. */
const marks = new Set<string>();

/** Appends are acknowledged at once and reach the disk with the next one. */
function lazy(store: Store): Store {
  let late: readonly Sealed[] = [];
  return overridden(store, {
    append: async (batch) => {
      const due = late;
      late = batch;
      if (due.length > 0) await store.append(due);
    },
  });
}

/** The same thing with some of its doings replaced; getters stay live. */
function overridden<T extends object>(thing: T, changed: Partial<T>): T {
  return Object.assign(Object.create(thing), changed);
}
