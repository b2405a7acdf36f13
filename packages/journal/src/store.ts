import type { Sealed } from './entry.ts';

/**
 * Where one campaign's journal rests. Implemented by the storage room (SQLite, IndexedDB, later PostgreSQL)
 * and by the simulator's memory; every implementation passes one conformance suite.
 * Bodies are opaque to a store.
 */
export interface Store {
  readonly campaign: string;
  /** Every entry, in the order in which it was stored. */
  load(): Promise<readonly Sealed[]>;
  /**
   * The same list from position `count` on: what another tab or process has added since. A store that can be
   * shared offers it, so that looking costs little; without it everything is loaded again.
   */
  loadAfter?(count: number): Promise<readonly Sealed[]>;
  /**
   * Keep these, all or none. Resolves only when they are durable (disk flushed; in a browser, strict commit
   * read back). An entry whose hash is already there changes nothing. When it rejects, the fate of the batch
   * is unknown and nobody may be told that it is saved.
   */
  append(batch: readonly Sealed[]): Promise<void>;
  /** Names this life of the store: a new one after every restore from a backup. */
  epoch(): Promise<string>;
  /** Small durable notes beside the journal (which device writes here, what a peer last told). */
  note(name: string): Promise<string | null>;
  setNote(name: string, text: string): Promise<void>;
  close(): Promise<void>;
}
