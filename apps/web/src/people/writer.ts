import { forget, keep, onKeptElsewhere, recall } from '../device/kept.ts';

/** Whether whoever writes showed that it is them: lately, too long ago, or not at all. */
type Proof = 'given' | 'over' | 'none';

/** In whose name this device writes in one campaign; remembered here, no part of the record. */
export interface Writer {
  /** Null where nobody has picked initials, or the device was handed over and not taken yet. */
  readonly me: string | null;
  /** The last other person who wrote here within a day. */
  readonly before: string | null;
  readonly proof: Proof;
  /** @param isProven they gave their PIN just now */
  take(person: string, isProven: boolean): void;
  /** Nobody writes until somebody picks initials. */
  handOver(): void;
  /** Something that needs the PIN waits for it. */
  readonly isPinWanted: boolean;
  /** Resolves when the PIN was given, or somebody says that it won't be. */
  wantPin(): Promise<void>;
  /** The PIN is not given now. */
  later(): void;
  close(): void;
}

/** A shift; a proof that holds longer is a tablet left on a bench. ms */
const proofHolds = 12 * 60 * 60_000;
/** Whoever wrote longer ago is not the one who stands beside. ms */
const before = 24 * 60 * 60_000;
const mostBefore = 6;

/** Somebody and a time: since when they are proven, or until when they wrote. */
interface At {
  readonly person: string;
  readonly at: number;
}

export function startWriter(campaign: string, now: () => number, changed: () => void): Writer {
  const name = { me: `me.${campaign}`, proof: `proof.${campaign}`, before: `before.${campaign}` };
  let me = recall(name.me);
  let proven: At | null = readAll(name.proof)[0] ?? null;
  let others = readAll(name.before);
  let waiting: (() => void)[] = [];

  const stop = onKeptElsewhere(name.me, () => {
    me = recall(name.me);
    proven = readAll(name.proof)[0] ?? null;
    others = readAll(name.before);
    changed();
  });
  const settle = () => {
    const all = waiting;
    waiting = [];
    for (const one of all) one();
  };
  const leave = () => {
    proven = null;
    forget(name.proof);
    if (me === null) return;
    others = [{ person: me, at: now() }, ...others.filter(({ person }) => person !== me)].slice(
      0,
      mostBefore,
    );
    keep(name.before, JSON.stringify(others));
  };
  /** A clock that was set back ends what it did not begin. */
  const isWithin = ({ at }: At, most: number): boolean => at <= now() && now() - at < most;

  return {
    get me() {
      return me;
    },
    get before() {
      return others.find((one) => one.person !== me && isWithin(one, before))?.person ?? null;
    },
    get proof() {
      if (proven === null || proven.person !== me) return 'none';
      return isWithin(proven, proofHolds) ? 'given' : 'over';
    },
    get isPinWanted() {
      return waiting.length > 0;
    },
    take(person, isProven) {
      if (person !== me) leave();
      if (isProven) {
        proven = { person, at: now() };
        keep(name.proof, JSON.stringify([proven]));
      }
      me = person;
      // Last: other tabs look when this changes.
      keep(name.me, person);
      settle();
      changed();
    },
    handOver() {
      leave();
      me = null;
      forget(name.me);
      settle();
      changed();
    },
    wantPin() {
      const given = new Promise<void>((resolve) => waiting.push(resolve));
      changed();
      return given;
    },
    later() {
      settle();
      changed();
    },
    close: stop,
  };
}

function readAll(name: string): readonly At[] {
  try {
    const list: unknown = JSON.parse(recall(name) ?? '[]');
    return Array.isArray(list) ? list.filter(isAt) : [];
  } catch {
    return [];
  }
}

const isAt = (value: unknown): value is At => {
  const { person, at } = (value ?? {}) as Partial<At>;
  return typeof person === 'string' && typeof at === 'number';
};
