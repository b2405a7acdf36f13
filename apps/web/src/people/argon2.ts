import { argon2id } from '@noble/hashes/argon2.js';

/** The least that is asked of a password anywhere (19 MiB, two passes): a tablet has no more to spare. */
const cost = { m: 19 * 1024, t: 2, p: 1, dkLen: 32 };

/** @param salt base64 */
export function argon2Of(pin: string, salt: string): string {
  const bytes = Uint8Array.from(atob(salt), (sign) => sign.charCodeAt(0));
  return btoa(String.fromCharCode(...argon2id(pin, bytes, cost)));
}
