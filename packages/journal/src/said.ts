import type { Have } from './coverage.ts';
import type { Entry } from './entry.ts';
import { type Head, headOf, type Ledger } from './ledger.ts';

/**
 * What one side says of its holdings: all heads, or, where `since` stands beside them, only those of devices whose heads
 * were other ones there.
 */
export interface Said {
  readonly have: Have;
  /** Name of all that is held. Whoever hears it only compares it with other marks of the same side. */
  readonly mark?: string;
  /** Mark of what `have` is put on: what the sender held when it said so. */
  readonly since?: string;
}

/** What is known of a side: all that it said to hold, under which mark, in which life of its store. */
interface Known {
  readonly epoch: string;
  readonly have: Have;
  readonly mark?: string;
}

/** Past have-vectors that are kept for saying a difference to them: more than fifty tablets between two polls make. */
const PAST_LIMIT = 200;

/**
 * All that a side holds, from what it said. Null where that is a difference to something else than what is known here:
 * then only what it names may be believed, and it is asked for all of it.
 */
export function wholeOf(known: Known | undefined, said: Said & { readonly epoch: string }): Have | null {
  if (said.since === undefined) return said.have;
  if (known?.epoch !== said.epoch || known.mark !== said.since) return null;
  return put(known.have, said.have);
}

/** Says what a ledger holds, to peers who each knew something else of it before. */
export interface Speaker {
  /**
   * A difference where that is shorter, else everything.
   *
   * @param knows mark of what the peer knows of this life of the store; undefined where it has told none
   */
  say(knows: string | undefined): Said;
}

/**
 * The mark is the sum of all heads' hashes modulo 2^256, as 64 hex digits: a head's hash covers its device and number, so
 * no two vectors have one mark, not even where a running computer was set back and said other things since; and what
 * changed changes it, however many devices there are.
 */
export function createSpeaker(ledger: Ledger): Speaker {
  const heads = new Map<string, readonly Entry[]>();
  const past = new Map<string, Have>();
  let size = -1;
  let sum = 0n;
  let mark = '';
  let now: Have = put();

  function look(): void {
    if (size === ledger.size) return;
    size = ledger.size;
    const news: Record<string, readonly Head[]> = { __proto__: null } as never;
    for (const device of ledger.devices()) {
      const there = ledger.chain(device)!.heads;
      const before = heads.get(device);
      if (before?.length === there.length && before.every((head, index) => head === there[index])) continue;
      heads.set(device, [...there]);
      sum += sumOf(there) - sumOf(before);
      news[device] = there.map(headOf);
    }
    now = put(now, news);
    mark = BigInt.asUintN(256, sum).toString(16).padStart(64, '0');
    past.set(mark, now);
    const [oldest] = past.keys();
    if (past.size > PAST_LIMIT) past.delete(oldest!);
  }

  return {
    say(knows) {
      look();
      const before = knows === undefined ? undefined : past.get(knows);
      if (before === undefined) return { have: now, mark };
      // A list that has not changed is the same list.
      const devices = [...heads.keys()].filter((device) => now[device] !== before[device]);
      // All of it again costs both sides more as a difference.
      if (devices.length === heads.size) return { have: now, mark };
      const news: Record<string, readonly Head[]> = { __proto__: null } as never;
      for (const device of devices) news[device] = now[device]!;
      return { have: news, mark, since: knows! };
    },
  };
}

/** The later ones take the place of what the earlier ones say of a device. */
function put(...haves: readonly Have[]): Have {
  return Object.assign(Object.create(null), ...haves);
}

function sumOf(heads: readonly Entry[] = []): bigint {
  let sum = 0n;
  for (const { hash } of heads) sum += BigInt(`0x${hash}`);
  return sum;
}
