import { canonical, parse, parseCanonical } from './canonical.ts';
import { isStamp } from './clock.ts';
import type { Draft, Entry, Header, Json, JsonObject, Sealed } from './entry.ts';
import { type HashText, hashText } from './hash.ts';

/** Where in the journal a draft is put: chain, clock and salt, which the device knows and the person does not. */
export interface Place {
  readonly campaign: string;
  readonly device: string;
  readonly sequence: number;
  readonly previous: string | null;
  readonly stamp: string;
  /** 32 hex digits (16 random bytes). */
  readonly salt: string;
  readonly clockOff?: number;
  /** Stated by the first entry that the device signs under its name. */
  readonly key?: string;
}

export type Opened =
  | { readonly ok: true; readonly entry: Entry }
  | { readonly ok: false; readonly problem: string };

/** Largest entry: head and body together, in UTF-8 bytes. Bigger things are attachments. */
export const ENTRY_BYTES_LIMIT = 256 * 1024;

const HASH = /^[0-9a-f]{64}$/;
const SALT = /^[0-9a-f]{32}$/;
const WORD = /^[!-~]{1,128}$/;
/** One text for one key: the two bits that the last letter has to spare are 0. */
const KEY = /^[A-Za-z0-9_-]{42}[AEIMQUYcgkosw048]$/;
const SIGNATURE = /^[A-Za-z0-9_-]{1,128}$/;
const CORRECTS_LIMIT = 1000;

/**
 * Make the entry whose bytes are kept for ever.
 *
 * @throws TypeError where a reading cannot be written (see canonical.ts); RangeError where the entry is too big
 */
export function seal(draft: Draft, place: Place): Entry {
  const body = canonical({ readings: draft.body, salt: place.salt });
  const header: Header = {
    id: draft.id,
    campaign: place.campaign,
    kind: draft.kind,
    version: draft.version,
    observedAt: draft.observedAt,
    stamp: place.stamp,
    by: draft.by,
    device: place.device,
    sequence: place.sequence,
    previous: place.previous,
    bodyHash: hashText(body),
    ...(draft.corrects === undefined ? {} : { corrects: draft.corrects }),
    ...(draft.reason === undefined ? {} : { reason: draft.reason }),
    ...(place.clockOff === undefined ? {} : { clockOff: place.clockOff }),
    ...(place.key === undefined ? {} : { key: place.key }),
  };
  const head = canonical(header);
  const sealed: Sealed = { hash: hashText(head), head, body, signature: null };
  const opened = reopen(sealed);
  if (!opened.ok) throw new RangeError(`The entry "${draft.kind}" cannot be sealed: ${opened.problem}.`);
  return opened.entry;
}

/**
 * Check received or stored bytes and open them. Total: whatever comes in, an answer comes out.
 * Checks size, field types, canonical form, both hashes. Properties of the header that this build does not know
 * stay in `header` and, as the bytes are never written again, in the entry (J5). Kind and body are not judged.
 *
 * @param hash the platform's own SHA-256, where it has one that answers at once
 */
export function open(sealed: Sealed, hash: HashText = hashText): Opened {
  return read(sealed, parseCanonical, hash);
}

/**
 * Open bytes that this device has opened with `open` before and kept since: hashes and canonical form are not
 * checked again. All field types are, so the shape of what comes out can be relied on.
 */
export function reopen(sealed: Sealed): Opened {
  return read(sealed, parse, null);
}

function read(sealed: Sealed, parseText: (text: string) => Json, hash: HashText | null): Opened {
  const wrong = envelopeProblem(sealed);
  if (wrong !== null) return bad(wrong);
  let header: Json;
  let wrapped: Json = null;
  try {
    if (hash !== null && hash(sealed.head) !== sealed.hash) return bad('the head does not match its hash');
    header = parseText(sealed.head);
    if (sealed.body !== null) wrapped = parseText(sealed.body);
  } catch (error) {
    return bad(error instanceof Error ? error.message : 'the text is not JSON');
  }
  const field = headerProblem(header);
  if (field !== null) return bad(field);
  const { bodyHash } = header as unknown as Header;
  if (sealed.body !== null) {
    if (hash !== null && hash(sealed.body) !== bodyHash)
      return bad('the body does not match the hash in the head');
    if (!isObject(wrapped) || !isObject(wrapped.readings)) return bad('the body holds no readings');
    if (typeof wrapped.salt !== 'string' || !SALT.test(wrapped.salt)) return bad('the body holds no salt');
  }
  const body = isObject(wrapped) ? (wrapped.readings as JsonObject) : null;
  return { ok: true, entry: { hash: sealed.hash, header: header as unknown as Header, body, sealed } };
}

/** The same entry for a publication: the body is left out, and hash and chain still check. */
export function withhold(sealed: Sealed): Sealed {
  return { hash: sealed.hash, head: sealed.head, body: null, signature: sealed.signature };
}

function envelopeProblem(sealed: unknown): string | null {
  if (typeof sealed !== 'object' || sealed === null) return 'not an entry';
  const { hash, head, body, signature } = sealed as Record<string, unknown>;
  if (typeof hash !== 'string' || !HASH.test(hash)) return 'the hash is not 64 hex digits';
  if (typeof head !== 'string') return 'the head is not text';
  if (body !== null && typeof body !== 'string') return 'the body is neither text nor withheld';
  if (signature !== null && (typeof signature !== 'string' || !SIGNATURE.test(signature))) {
    return 'the signature is not base64url';
  }
  if (!fits(head, body ?? '')) {
    return `larger than ${ENTRY_BYTES_LIMIT / 1024} kB`;
  }
  return null;
}

function headerProblem(header: Json): string | null {
  if (!isObject(header)) return 'the head is not an object';
  for (const name of ['id', 'campaign', 'kind', 'by', 'device'] as const) {
    if (!isWord(header[name])) return `"${name}" is not a word of 1 to 128 visible characters`;
  }
  const { version, observedAt, stamp, sequence, previous, bodyHash, corrects, reason, clockOff, key } =
    header;
  if (!isCount(version)) return '"version" is not a whole number from 1 on';
  if (typeof observedAt !== 'string') return '"observedAt" is not text';
  if (!isStamp(stamp)) return '"stamp" is not a clock reading';
  if (!isCount(sequence)) return '"sequence" is not a whole number from 1 on';
  if (previous !== null && !isHash(previous)) return '"previous" is neither a hash nor null';
  if ((sequence === 1) !== (previous === null)) return '"previous" does not fit "sequence"';
  if (!isHash(bodyHash)) return '"bodyHash" is not 64 hex digits';
  if (corrects !== undefined) {
    if (!Array.isArray(corrects) || !corrects.every(isWord)) return '"corrects" is not a list of ids';
    if (corrects.length > CORRECTS_LIMIT) return `"corrects" names more than ${CORRECTS_LIMIT} entries`;
  }
  if (reason !== undefined && typeof reason !== 'string') return '"reason" is not text';
  if (clockOff !== undefined && typeof clockOff !== 'number') return '"clockOff" is not a number';
  if (key !== undefined && (typeof key !== 'string' || !KEY.test(key)))
    return '"key" is not 32 bytes in base64url';
  return null;
}

/** Whether the UTF-8 bytes of text are within the limit; counted only where its length does not settle it. */
function fits(head: string, body: string): boolean {
  const length = head.length + body.length;
  if (length * 3 <= ENTRY_BYTES_LIMIT) return true;
  if (length > ENTRY_BYTES_LIMIT) return false;
  let bytes = 0;
  for (const character of head + body) {
    const point = character.codePointAt(0)!;
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
  }
  return bytes <= ENTRY_BYTES_LIMIT;
}

function isObject(value: unknown): value is JsonObject {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function isWord(value: unknown): boolean {
  return typeof value === 'string' && WORD.test(value);
}

function isHash(value: unknown): boolean {
  return typeof value === 'string' && HASH.test(value);
}

function isCount(value: unknown): boolean {
  return Number.isSafeInteger(value) && (value as number) >= 1;
}

function bad(problem: string): Opened {
  return { ok: false, problem };
}
