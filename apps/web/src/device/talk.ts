import type { Replica, Reply } from '@firnbook/journal';
import type { CampState } from './book.ts';
import type { Camp } from './camp.ts';
import { nextTalk } from './pace.ts';

/** Name under which a replica notes what the camp computer last told. */
export const CAMP = 'camp';

/** What an exchange brought. */
type Heard = Awaited<ReturnType<Replica['hear']>>;

export interface TalkOptions {
  readonly replica: Replica;
  readonly camp: Camp;
  readonly isVisible: () => boolean;
  /** Entries may have come or ticks changed. */
  readonly onHeard: (heard: Heard) => void;
  /** The camp computer came or went. */
  readonly onState: () => void;
  /** What came could not be kept on this device. */
  readonly onTrouble: (error: unknown) => void;
}

export interface Talk {
  readonly state: CampState;
  /** Exchange until neither side has more to say; joins the exchange that is going on, and then looks once more. */
  now(): Promise<void>;
  close(): void;
}

/** Keeps one campaign in exchange with the camp computer, at the pace of pace.ts. Never rejects. */
export function startTalk(options: TalkOptions): Talk {
  const { replica, camp } = options;
  let state: CampState = 'unknown';
  let failures = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let going: Promise<void> | null = null;
  let isAskedAgain = false;
  let isClosed = false;

  const turnState = (next: CampState) => {
    if (state === next) return;
    state = next;
    options.onState();
  };

  /** False where the camp computer gave no answer. */
  const once = async (): Promise<boolean> => {
    let reply: Reply;
    try {
      reply = await camp.exchange(replica.campaign, replica.ask(CAMP));
    } catch {
      failures += 1;
      turnState('unreachable');
      return false;
    }
    failures = 0;
    turnState('reachable');
    const heard = await replica.hear(CAMP, reply);
    options.onHeard(heard);
    if (heard.again) isAskedAgain = true;
    return true;
  };

  const talk = async (): Promise<void> => {
    try {
      do isAskedAgain = false;
      while ((await once()) && isAskedAgain && !isClosed);
    } catch (error) {
      // The exchange went well and the store did not: trying again at once would not help.
      failures += 1;
      options.onTrouble(error);
    }
    going = null;
    schedule();
  };

  const schedule = () => {
    clearTimeout(timer);
    if (isClosed) return;
    const unsent = replica.safety(CAMP).missing().length;
    const wait = nextTalk({ failures, unsent, visible: options.isVisible() });
    if (wait !== null) timer = setTimeout(() => void now(), wait);
  };

  const now = (): Promise<void> => {
    if (isClosed) return Promise.resolve();
    clearTimeout(timer);
    if (going !== null) {
      isAskedAgain = true;
      return going;
    }
    going = talk();
    return going;
  };

  return {
    get state() {
      return state;
    },
    now,
    close() {
      isClosed = true;
      clearTimeout(timer);
    },
  };
}
