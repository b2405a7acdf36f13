import type { Draft, Replica } from '@firnbook/journal';
import type { Taken } from './book.ts';

/** What is told to whoever says something, and what is written of it; nothing where it was refused. */
export interface Decided {
  readonly taken: Taken;
  readonly drafts: readonly Draft[];
}

/** Writes what people say, one after the other, and again what failed. */
interface Keeping {
  /** Entries being written, or whose writing failed. */
  readonly saving: number;
  /** Whether the fate of every write is known. */
  readonly isSettled: boolean;
  /**
   * Decided by all that this device holds, and nobody on it writes in between: no two tabs find the number 34 free.
   *
   * @param command what is said, as text: said again after a failure, it is the same
   */
  keep(replica: Replica, command: string, decide: () => Decided): Promise<Taken>;
  /** Offers once more what failed. */
  settle(replica: Replica): Promise<void>;
}

interface KeepingOptions {
  /** A save takes long enough to be shown. */
  readonly onSlow: () => void;
  readonly onKept: () => void;
  readonly onFailed: (error: unknown) => void;
}

/** Writes that failed: whether they were kept is unknown, so the same entries are offered until one write succeeds. */
interface Unsettled {
  readonly drafts: readonly Draft[];
  /** What each command that waits for it will be told. */
  readonly taken: ReadonlyMap<string, Taken>;
}

/** A save that takes longer, ms, is shown while it is under way; drawing the screens for each would be what takes so long. */
const noticed = 150;

export function startKeeping({ onSlow, onKept, onFailed }: KeepingOptions): Keeping {
  let saving = 0;
  let unsettled: Unsettled | null = null;
  /** Ends with the command that is decided last. */
  let turn: Promise<unknown> = Promise.resolve();
  /** Commands that failed and were kept with another write since: whoever tries one again is told so, once. */
  const keptSince = new Map<string, Taken>();

  /**
   * @param make what is to be written, by all that is held then; null where there is nothing to write
   * @param command the one that is told by the caller
   */
  const write = async (
    replica: Replica,
    make: () => Unsettled | null,
    command: string | null,
  ): Promise<void> => {
    let own: Unsettled | null = null;
    let slow: ReturnType<typeof setTimeout> | undefined;
    try {
      await replica.write(() => {
        const wanted = make();
        if (wanted === null) return [];
        // What failed before goes first and as it was: the same ids can't be doubled.
        const before: Unsettled | null = unsettled === wanted ? null : unsettled;
        own = {
          drafts: [...(before?.drafts ?? []), ...wanted.drafts],
          taken: new Map([...(before?.taken ?? []), ...wanted.taken]),
        };
        saving = own.drafts.length;
        slow = setTimeout(onSlow, noticed);
        return own.drafts;
      });
    } catch (error) {
      if (own !== null) {
        unsettled = own;
        onFailed(error);
      }
      throw error;
    } finally {
      clearTimeout(slow);
    }
    const written = own as Unsettled | null;
    if (written === null) return;
    saving = 0;
    unsettled = null;
    for (const [other, told] of written.taken) if (other !== command) keptSince.set(other, told);
    onKept();
  };

  const keepNow = async (replica: Replica, command: string, decide: () => Decided): Promise<Taken> => {
    let taken: Taken | null = null;
    const make = (): Unsettled | null => {
      const since = keptSince.get(command);
      if (since !== undefined) {
        keptSince.delete(command);
        taken = since;
        return null;
      }
      const failed = unsettled?.taken.get(command);
      if (failed !== undefined) {
        taken = failed;
        return unsettled;
      }
      const decided = decide();
      taken = decided.taken;
      if (decided.drafts.length === 0) return null;
      return { drafts: decided.drafts, taken: new Map([[command, decided.taken]]) };
    };
    await write(replica, make, command);
    return taken!;
  };

  return {
    get saving() {
      return saving;
    },
    get isSettled() {
      return unsettled === null;
    },
    keep(replica, command, decide) {
      const mine = turn.then(() => keepNow(replica, command, decide));
      turn = mine.catch(() => undefined);
      return mine;
    },
    settle: (replica) => (unsettled === null ? Promise.resolve() : write(replica, () => unsettled, null)),
  };
}
