import { bytesToHex } from '@noble/hashes/utils.js';
import { v7 } from 'uuid';

/** What the outside world lends to this room: a wall clock in ms since 1970 and a source of random bytes. */
export interface Source {
  readonly now: () => number;
  readonly randomBytes: (length: number) => Uint8Array;
}

const LATEST = 2 ** 48 - 1;

/**
 * A new name: UUID version 7 (RFC 9562 section 5.7), 48 bits of clock and 74 random bits.
 * Its time part only helps to sort listings; nothing depends on the clock being right (J7).
 */
export function newId(source: Source): string {
  return v7({ msecs: wholeMilliseconds(source.now(), LATEST), random: source.randomBytes(16) });
}

/** 16 random bytes as hex: the salt of a body. */
export function newSalt(source: Source): string {
  return bytesToHex(source.randomBytes(16));
}

/** A wall clock may say anything; what goes into ids and stamps lies between 0 and `most`. */
export function wholeMilliseconds(now: number, most: number): number {
  if (!Number.isFinite(now)) return 0;
  return Math.min(Math.max(Math.trunc(now), 0), most);
}
