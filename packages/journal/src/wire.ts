import type { Have, Unsure } from './coverage.ts';
import type { Sealed } from './entry.ts';
import type { Refused, Reply, Request } from './exchange.ts';
import { PROTOCOL } from './exchange.ts';
import type { Head } from './ledger.ts';

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: string };

const ENTRIES_LIMIT = 10_000;
const DEVICES_LIMIT = 10_000;
const HEADS_LIMIT = 1_000;
const WORD = /^[!-~]{1,128}$/;
const HASH = /^[0-9a-f]{64}$/;

/**
 * Check what came over the wire (already parsed from JSON) before anything relies on its shape. Copies what it
 * knows into objects without a prototype and leaves the rest behind. Entries are checked one by one later.
 */
export function readRequest(value: unknown): Read<Request> {
  return read(value, (half) => ({
    ...readHalf(half),
    from: word(half, 'from'),
    ...(half.refused === undefined ? {} : { refused: list(half, 'refused', ENTRIES_LIMIT).map(readHash) }),
  }));
}

export function readReply(value: unknown): Read<Reply> {
  return read(value, (half) => ({
    ...readHalf(half),
    refused: list(half, 'refused', ENTRIES_LIMIT).map(readRefused),
    more: half.more === true,
    ...(half.forgot === true ? { forgot: true } : {}),
  }));
}

type Fields = Readonly<Record<string, unknown>>;

class Unreadable extends Error {}

function read<T>(value: unknown, build: (fields: Fields) => T): Read<T> {
  try {
    return { ok: true, value: build(fields(value, 'the message')) };
  } catch (error) {
    if (error instanceof Unreadable) return { ok: false, problem: error.message };
    throw error;
  }
}

function readHalf(half: Fields): Omit<Request, 'from'> {
  if (half.protocol !== PROTOCOL) {
    throw new Unreadable(
      `"protocol" is ${JSON.stringify(half.protocol)}, this version speaks ${PROTOCOL}: bring both sides to one version`,
    );
  }
  if (typeof half.now !== 'number' || !Number.isFinite(half.now))
    throw new Unreadable('"now" is not a number');
  return {
    protocol: PROTOCOL,
    campaign: word(half, 'campaign'),
    turn: word(half, 'turn'),
    epoch: word(half, 'epoch'),
    basis: half.basis === null ? null : word(half, 'basis'),
    now: half.now,
    have: readHave(half.have),
    ...mark(half, 'mark'),
    ...mark(half, 'since'),
    ...mark(half, 'knows'),
    unsure: readUnsure(half.unsure),
    entries: list(half, 'entries', ENTRIES_LIMIT) as readonly Sealed[],
  };
}

export function readHave(value: unknown): Have {
  const have: Record<string, readonly Head[]> = { __proto__: null } as never;
  for (const [device, heads] of devices(value, 'have')) {
    if (!Array.isArray(heads) || heads.length > HEADS_LIMIT)
      throw new Unreadable('"have" holds no list of heads');
    have[device] = heads.map(readHead);
  }
  return have;
}

function readHead(value: unknown): Head {
  const { sequence, hash } = fields(value, 'a head in "have"');
  if (typeof hash !== 'string' || !HASH.test(hash)) throw new Unreadable('a head in "have" has no hash');
  if (!Number.isSafeInteger(sequence) || (sequence as number) < 1) {
    throw new Unreadable('a head in "have" has no sequence');
  }
  return { sequence: sequence as number, hash };
}

function readUnsure(value: unknown): Unsure {
  const unsure: Record<string, number> = { __proto__: null } as never;
  for (const [device, sequence] of devices(value, 'unsure')) {
    if (!Number.isSafeInteger(sequence) || (sequence as number) < 0) {
      throw new Unreadable('"unsure" holds no sequence');
    }
    unsure[device] = sequence as number;
  }
  return unsure;
}

function readHash(value: unknown): string {
  if (typeof value !== 'string') throw new Unreadable('"refused" holds no hash');
  return value;
}

function readRefused(value: unknown): Refused {
  const { hash, problem } = fields(value, 'an item of "refused"');
  if (typeof hash !== 'string' || typeof problem !== 'string')
    throw new Unreadable('"refused" is not readable');
  return { hash, problem };
}

function devices(value: unknown, name: string): [string, unknown][] {
  const entries = Object.entries(fields(value, `"${name}"`));
  if (entries.length > DEVICES_LIMIT)
    throw new Unreadable(`"${name}" names more than ${DEVICES_LIMIT} devices`);
  if (!entries.every(([device]) => WORD.test(device))) throw new Unreadable(`"${name}" names no device`);
  return entries;
}

function fields(value: unknown, what: string): Fields {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new Unreadable(`${what} is not an object`);
  }
  return value as Fields;
}

function list(half: Fields, name: string, most: number): readonly unknown[] {
  const value = half[name];
  if (!Array.isArray(value)) throw new Unreadable(`"${name}" is not a list`);
  if (value.length > most) throw new Unreadable(`"${name}" holds more than ${most} items`);
  return value;
}

function mark<Name extends string>(half: Fields, name: Name): { readonly [name in Name]?: string } {
  const value = half[name];
  if (value === undefined) return {};
  if (typeof value !== 'string' || !HASH.test(value)) throw new Unreadable(`"${name}" is not a mark`);
  return { [name]: value } as { readonly [name in Name]: string };
}

function word(half: Fields, name: string): string {
  const value = half[name];
  if (typeof value !== 'string' || !WORD.test(value)) throw new Unreadable(`"${name}" is not a word`);
  return value;
}
