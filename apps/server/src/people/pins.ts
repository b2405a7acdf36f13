import { join } from 'node:path';
import { type Guesses, oneMoreGuess, waitLeft } from '@firnbook/campaign';
import { readPrivate, writePrivate } from '../network/private-file.ts';
import { argon2id, decoy, type Hasher } from './hasher.ts';

/** From where somebody gives a PIN: the camp computer itself, or a paired device by its id. */
export type From = 'here' | string;

/** A person of a campaign. */
interface Who {
  readonly campaign: string;
  readonly person: string;
}

/** That a person has a PIN, and since when: a device knows by it whether what it keeps is still good. */
interface PinLine {
  readonly person: string;
  /** ISO 8601, UTC, of this computer's clock. */
  readonly setAt: string;
}

/** Why a PIN was not taken. */
export type Refused =
  | { readonly is: 'wrong' }
  | { readonly is: 'too often' /** ms */; readonly wait: number }
  /** Too many wait to be checked. */
  | { readonly is: 'busy' };

type Tried = { readonly is: 'right'; readonly setAt: string } | Refused;
type Set = { readonly is: 'set'; readonly setAt: string } | { readonly is: 'set before' } | Refused;

/** The crew's PINs on one camp computer. None is an entry, and of none more is kept than its verifier. */
export interface Pins {
  list(campaign: string): readonly PinLine[];
  check(who: Who, pin: string, from: From): Promise<Tried>;
  /** The first one of a person; another only to whoever gives the `old` one. On the disk when it resolves. */
  set(who: Who, pin: string, old: string | null, from: From): Promise<Set>;
  /** On the disk when it returns; false where the person has none. */
  reset(who: Who): boolean;
  /** Reads the file anew: another one was put in its place. */
  reload(): void;
}

export interface PinsOptions {
  readonly hasher?: Hasher;
  readonly now?: () => number;
}

interface Kept extends Who, PinLine {
  /** PHC string of argon2id. */
  readonly verifier: string;
  /** Device on which the person gave it last; null where that was the camp computer. */
  readonly lastOn: string | null;
}

/**
 * Wrong guesses are counted by person and by side. The device on which the person last gave the right PIN has a count
 * of its own, so has the camp computer, and all other devices share one: whoever guesses on one tablet keeps neither
 * the person waiting on their own tablet nor a colleague on the same one.
 */
type Side = 'here' | 'own' | 'others';
type Counts = Partial<Record<Side, Guesses>>;

/**
 * @throws Error with words where the file can't be read: nobody is believed by a guess, and nothing is overwritten
 */
export function openPins(dataFolder: string, options: PinsOptions = {}): Pins {
  const { hasher = argon2id(), now = Date.now } = options;
  const file = join(dataFolder, 'network', 'pins.json');
  const pins = new Map(readAll(file).map((one) => [keyOf(one), one]));
  /** They live in memory and end with the server. */
  const counts = new Map<string, Counts>();
  /** Of those who have no PIN: names that somebody makes up must not fill the memory. */
  const nobody: Counts = {};
  const nothing = decoy();

  /** On the disk, or as it was. */
  const put = (who: Who, next: Kept | null) => {
    const key = keyOf(who);
    const before = pins.get(key);
    const place = (one: Kept | null | undefined) => (one ? pins.set(key, one) : pins.delete(key));
    place(next);
    try {
      writePrivate(file, `${JSON.stringify([...pins.values()], null, 1)}\n`);
    } catch (error) {
      place(before);
      throw error;
    }
  };

  const countsOf = (kept: Kept | undefined): Counts => {
    if (kept === undefined) return nobody;
    const key = keyOf(kept);
    let own = counts.get(key);
    if (own === undefined) counts.set(key, (own = {}));
    return own;
  };

  const check: Pins['check'] = async (who, pin, from) => {
    const kept = pins.get(keyOf(who));
    const counted = countsOf(kept);
    const side: Side = from === 'here' ? 'here' : from === kept?.lastOn ? 'own' : 'others';
    const before = counted[side];
    const wait = waitLeft(before ?? null, now());
    if (wait > 0) return { is: 'too often', wait };
    // Counted before it is looked at: of fifty at once the fourth waits.
    counted[side] = oneMoreGuess(before ?? null, now());
    const isRight = await hasher.verify(kept?.verifier ?? nothing, pin);
    if (isRight === 'busy') {
      takeBack(counted, side);
      return { is: 'busy' };
    }
    if (!isRight || kept === undefined || pins.get(keyOf(who))?.verifier !== kept.verifier)
      return { is: 'wrong' };
    delete counted[side];
    if (from !== 'here' && side === 'others') moveTo(from, kept);
    return { is: 'right', setAt: kept.setAt };
  };

  /** From now on this is the person's own device, with a count of its own. */
  const moveTo = (device: string, kept: Kept) => {
    delete countsOf(kept).own;
    try {
      put(kept, { ...kept, lastOn: device });
    } catch {
      // A full disk must not turn somebody away who gave the right PIN.
      pins.set(keyOf(kept), { ...kept, lastOn: device });
    }
  };

  return {
    list: (campaign) =>
      [...pins.values()]
        .filter((one) => one.campaign === campaign)
        .map(({ person, setAt }) => ({ person, setAt })),
    check,
    async set(who, pin, old, from) {
      const before = pins.get(keyOf(who));
      if (before !== undefined) {
        if (old === null) return { is: 'set before' };
        const tried = await check(who, old, from);
        if (tried.is !== 'right') return tried;
      }
      const verifier = await hasher.hash(pin);
      if (verifier === 'busy') return { is: 'busy' };
      // Meanwhile somebody else may have set it, or it was reset.
      if (pins.get(keyOf(who))?.verifier !== before?.verifier) return { is: 'set before' };
      const setAt = new Date(now()).toISOString();
      const { campaign, person } = who;
      put(who, { campaign, person, setAt, verifier, lastOn: from === 'here' ? null : from });
      counts.delete(keyOf(who));
      return { is: 'set', setAt };
    },
    reset(who) {
      if (!pins.has(keyOf(who))) return false;
      put(who, null);
      counts.delete(keyOf(who));
      return true;
    },
    reload() {
      const read = readAll(file);
      pins.clear();
      for (const one of read) pins.set(keyOf(one), one);
    },
  };
}

/** A guess that was counted and never looked at. */
function takeBack(counted: Counts, side: Side): void {
  const current = counted[side];
  if (current !== undefined) counted[side] = { ...current, wrong: Math.max(0, current.wrong - 1) };
}

const keyOf = ({ campaign, person }: Who): string => `${campaign} ${person}`;

function readAll(file: string): readonly Kept[] {
  const text = readPrivate(file);
  if (text === null) return [];
  try {
    const list: unknown = JSON.parse(text);
    if (Array.isArray(list) && list.every(isKept)) return list;
  } catch {
    // Told below.
  }
  throw new Error(`${file} can not be read. Move it away, and let the crew choose their PINs again.`);
}

function isKept(value: unknown): value is Kept {
  const { campaign, person, setAt, verifier, lastOn } = (value ?? {}) as Partial<Kept>;
  return (
    [campaign, person, setAt].every((text) => typeof text === 'string') &&
    typeof verifier === 'string' &&
    verifier.startsWith('$argon2id$') &&
    (lastOn === null || typeof lastOn === 'string')
  );
}
