import type { Sealed } from './entry.ts';
import type { Store } from './store.ts';

/** What outlives a crash: the rows, the notes and the name of this life. */
export interface MemoryDisk {
  readonly rows: Sealed[];
  readonly notes: Map<string, string>;
  readonly epoch: string;
}

/**
 * What goes wrong with one write: 'refused', nothing was kept and the write rejects (a full disk, a crash before
 * the flush); 'kept', all was kept and the write still rejects (a crash or an error after the flush).
 */
export type MemoryFault = 'refused' | 'kept';

export interface MemoryFaults {
  append?(batch: readonly Sealed[]): MemoryFault | null;
  setNote?(name: string): MemoryFault | null;
}

export function createMemoryDisk(epoch: string): MemoryDisk {
  return { rows: [], notes: new Map(), epoch };
}

/** A backup, or a cloned tablet: the same rows and notes; a restored backup gets a new epoch. */
export function copyMemoryDisk(disk: MemoryDisk, epoch: string): MemoryDisk {
  return { rows: [...disk.rows], notes: new Map(disk.notes), epoch };
}

/** The Store of tests and simulator. `disk` is the durable part: open a second store over it to come back. */
export function createMemoryStore(campaign: string, disk: MemoryDisk, faults: MemoryFaults = {}): Store {
  return {
    campaign,
    load: async () => [...disk.rows],
    loadAfter: async (count) => disk.rows.slice(count),
    async append(batch) {
      const fault = faults.append?.(batch) ?? null;
      if (fault !== 'refused') {
        for (const sealed of batch) {
          if (!disk.rows.some((row) => row.hash === sealed.hash)) disk.rows.push(sealed);
        }
      }
      if (fault !== null) throw new Error(`The memory store was told to fail: ${fault}.`);
    },
    epoch: async () => disk.epoch,
    note: async (name) => disk.notes.get(name) ?? null,
    async setNote(name, text) {
      const fault = faults.setNote?.(name) ?? null;
      if (fault !== 'refused') disk.notes.set(name, text);
      if (fault !== null) throw new Error(`The memory store was told to fail: ${fault}.`);
    },
    close: async () => undefined,
  };
}
