import type { Entry } from './entry.ts';
import type { Accepted, Refused } from './exchange.ts';

/**
 * Whether a signature is right: Ed25519 (RFC 8032) over the UTF-8 bytes of `text`. Lent by the platform, because
 * a season is checked within the time that matters only by native code: node:crypto, or WebCrypto where the browser
 * has it. Never throws; a key or signature that is none is wrong.
 *
 * @param key 32 bytes, base64url
 * @param signature 64 bytes, base64url
 */
export type Verify = (key: string, signature: string, text: string) => boolean | Promise<boolean>;

/** The device's own key. The private half stays where the platform keeps it. */
export interface Signer {
  /** Public half: 32 bytes, base64url. */
  readonly key: string;
  /** Base64url signature over the UTF-8 bytes. @throws or rejects where it can't be made; nothing is lost then */
  sign(text: string): string | Promise<string>;
}

/**
 * What an entry's signature is worth. "unknown key": there is one, and nothing in the chain that this build can read
 * says whose. "unchecked": it should be right, and this platform can't tell.
 */
export type Proof = 'signed' | 'unsigned' | 'unknown key' | 'unchecked' | 'wrong';

/** What can be said of a signature before any arithmetic. */
export type Claim =
  | { readonly is: 'unsigned' | 'unknown key' }
  | { readonly is: 'wrong'; readonly problem: string }
  | { readonly is: 'to be checked'; readonly key: string; readonly signature: string };

/** The last letter carries bits that mean nothing: only the text whose spare bits are 0 is taken, so one text each. */
const SIGNATURE = /^[A-Za-z0-9_-]{85}[AQgw]$/;

export const NOT_ITS_KEY = "the signature is not by its device's key";

/**
 * J9: from the entry that states its device's key on, everything in that chain is signed by that key.
 *
 * @param before the key that the chain has stated before this entry
 */
export function claimOf({ header, sealed }: Entry, before: string | null): Claim {
  const { signature } = sealed;
  const key = before ?? header.key ?? null;
  if (key === null) return { is: signature === null ? 'unsigned' : 'unknown key' };
  if (header.key !== undefined && header.key !== key)
    return { is: 'wrong', problem: 'it states another key than its device has' };
  if (signature === null) return { is: 'wrong', problem: 'the signature of its device is missing' };
  if (!SIGNATURE.test(signature))
    return { is: 'wrong', problem: 'the signature is not 64 bytes in base64url' };
  return { is: 'to be checked', key, signature };
}

type Find = (hash: string) => Entry | undefined;

/** Finds the keys that chains have stated, without walking them twice. */
export interface Keys {
  /** Stated by this entry or before it in its chain; null where nobody did, or the chain has a hole there. */
  upTo(entry: Entry, find: Find): string | null;
  /** Stated before this entry. */
  before(entry: Entry, find: Find): string | null;
}

/** Of a chain that was walked, every so many entries are remembered. */
const STEP = 64;

export function createKeys(): Keys {
  const known = new WeakMap<Entry, string | null>();
  const last = new Map<string, Entry>();

  function upTo(entry: Entry, find: Find): string | null {
    const walked: Entry[] = [];
    let key: string | null | undefined;
    let isWhole = true;
    for (let at: Entry | undefined = entry; at !== undefined; ) {
      key = known.get(at);
      if (key !== undefined) break;
      walked.push(at);
      const { previous }: { readonly previous: string | null } = at.header;
      if (previous === null) break;
      at = find(previous);
      // What fills the hole later may state a key: nothing of this walk is remembered.
      if (at === undefined) isWhole = false;
    }
    let stated: string | null = key ?? null;
    for (const at of walked.reverse()) {
      stated ??= at.header.key ?? null;
      if (isWhole && at.header.sequence % STEP === 0) known.set(at, stated);
    }
    if (isWhole) remember(entry, stated);
    return stated;
  }

  /** The newest of each device, until another takes its place: a chain is asked about from one end to the other. */
  function remember(entry: Entry, key: string | null): void {
    const { device } = entry.header;
    const before = last.get(device);
    if (before === entry) return;
    if (before !== undefined && before.header.sequence % STEP !== 0) known.delete(before);
    last.set(device, entry);
    known.set(entry, key);
  }

  return {
    upTo,
    before(entry, find) {
      const { previous } = entry.header;
      const one = previous === null ? undefined : find(previous);
      return one === undefined ? null : upTo(one, find);
    },
  };
}

/** What an entry's signature is worth; without `verify` nothing is called signed. */
export async function proofOf(
  entry: Entry,
  before: string | null,
  verify: Verify | undefined,
): Promise<Proof> {
  const claim = claimOf(entry, before);
  if (claim.is !== 'to be checked') return claim.is;
  if (verify === undefined) return 'unchecked';
  return (await verify(claim.key, claim.signature, entry.sealed.head)) ? 'signed' : 'wrong';
}

/**
 * Of what `accept` would take, that whose signature is right or not asked for (J9). What is refused holds back only
 * what follows it in its own chain. Without `verify` (a browser over plain http) only what needs no arithmetic is
 * looked at: a signature that is missing, a key that changed.
 *
 * @param find also finds the entries in `accepted`
 */
export async function prove(
  { entries, refused }: Accepted,
  keys: Keys,
  find: Find,
  verify: Verify | undefined,
): Promise<Accepted> {
  const checks = entries.map((entry) => problemOf(entry, keys.before(entry, find), verify));
  if (checks.every((check) => check === null)) return { entries, refused };
  const problems = await Promise.all(checks);
  const out = new Set<string>();
  const good: Entry[] = [];
  const bad: Refused[] = [];
  for (const [index, entry] of entries.entries()) {
    const { previous, sequence } = entry.header;
    const isBehind = previous !== null && out.has(previous);
    const problem = isBehind ? `the entry before it (sequence ${sequence - 1}) is not here` : problems[index];
    if (problem === null || problem === undefined) good.push(entry);
    else {
      out.add(entry.hash);
      bad.push({ hash: entry.hash, problem });
    }
  }
  return { entries: good, refused: [...refused, ...bad] };
}

function problemOf(
  entry: Entry,
  before: string | null,
  verify: Verify | undefined,
): string | null | Promise<string | null> {
  const claim = claimOf(entry, before);
  if (claim.is === 'wrong') return claim.problem;
  if (claim.is !== 'to be checked' || verify === undefined) return null;
  const answer = verify(claim.key, claim.signature, entry.sealed.head);
  if (typeof answer === 'boolean') return answer ? null : NOT_ITS_KEY;
  return answer.then((isRight) => (isRight ? null : NOT_ITS_KEY));
}

/**
 * The same entries, signed. The first signature is checked, where that can be done: a key whose halves don't belong
 * together would make a chain that nobody else ever takes.
 *
 * @throws what the signer throws; an Error where its signature is wrong
 */
export async function signAll(
  entries: readonly Entry[],
  signer: Signer,
  verify: Verify | undefined,
): Promise<readonly Entry[]> {
  const signatures = await Promise.all(entries.map((entry) => signer.sign(entry.sealed.head)));
  const signed = entries.map((entry, index) => ({
    ...entry,
    sealed: { ...entry.sealed, signature: signatures[index]! },
  }));
  const [first] = signed;
  if (first !== undefined && (await problemOf(first, signer.key, verify)) !== null)
    throw new Error('The key of this device makes signatures that do not fit it.');
  return signed;
}
