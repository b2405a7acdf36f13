/** What a journal holds. Shapes only; sealing and opening stand in seal.ts. */

export type Json = null | boolean | number | string | readonly Json[] | { readonly [name: string]: Json };
export type JsonObject = { readonly [name: string]: Json };

/** The signed, hashed part of an entry. Its canonical bytes are the entry's identity on disk and on the wire. */
export interface Header {
  /** UUIDv7: the name of the entry, and of the thing it creates. */
  readonly id: string;
  readonly campaign: string;
  readonly kind: string;
  readonly version: number;
  /** ISO 8601 with UTC offset: when it was seen, as the person says. */
  readonly observedAt: string;
  /** Hybrid logical clock reading, text that sorts as time does (clock.ts). */
  readonly stamp: string;
  /** Id of the person's entry. */
  readonly by: string;
  readonly device: string;
  /** 1, 2, 3 ... without a gap on each device. */
  readonly sequence: number;
  /** Hash of the device's entry before; null for its first. */
  readonly previous: string | null;
  /** Hash of the salted body bytes, so that a body can be withheld and the chain still checks. */
  readonly bodyHash: string;
  /** Ids of the entries that this one corrects. */
  readonly corrects?: readonly string[];
  readonly reason?: string;
  /**
   * Milliseconds by which the device's clock was ahead of the camp computer's when they last spoke; absent where
   * they agreed within five seconds or never spoke.
   */
  readonly clockOff?: number;
  /**
   * Ed25519 public key of the device, base64url: stated by the first entry that the device signs under this name.
   * From here on all its entries are signed by this key (J9). A key of another kind would be another property.
   */
  readonly key?: string;
}

/** An entry as stored and passed on: text that is never serialised again. */
export interface Sealed {
  /** Lower-case hex SHA-256 over the UTF-8 bytes of `head`. */
  readonly hash: string;
  /** Canonical JSON (RFC 8785) of the Header. */
  readonly head: string;
  /** Canonical JSON of {"readings": body, "salt": hex}; null where it was withheld. */
  readonly body: string | null;
  /** Ed25519 over the bytes of `head`, base64url; null where the device has no key (signature.ts). Not hashed. */
  readonly signature: string | null;
}

/** An entry opened for reading: `sealed` stays the truth, the rest is parsed from it once. */
export interface Entry {
  readonly hash: string;
  readonly header: Header;
  /** Null where the body was withheld. */
  readonly body: JsonObject | null;
  readonly sealed: Sealed;
}

/** What a person's decision wants written; the device adds chain, clock and hashes. */
export interface Draft {
  readonly id: string;
  readonly kind: string;
  readonly version: number;
  readonly observedAt: string;
  readonly by: string;
  readonly body: JsonObject;
  readonly corrects?: readonly string[];
  readonly reason?: string;
}
