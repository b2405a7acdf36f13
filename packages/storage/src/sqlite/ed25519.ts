import { createPublicKey, type KeyObject, verify } from 'node:crypto';

/** Keys made ready before; a season has some dozens of devices. */
const ready = new Map<string, KeyObject>();
const most = 1000;

/**
 * Whether a signature is right, by the platform's Ed25519 (the journal's `Verify`).
 *
 * @param key 32 bytes, base64url
 * @param signature 64 bytes, base64url
 */
export function verifyEd25519(key: string, signature: string, text: string): boolean {
  try {
    return verify(null, Buffer.from(text, 'utf8'), keyOf(key), Buffer.from(signature, 'base64url'));
  } catch {
    // Bytes that are no point of the curve are no device's key.
    return false;
  }
}

function keyOf(key: string): KeyObject {
  let made = ready.get(key);
  if (made === undefined) {
    made = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: key }, format: 'jwk' });
    if (ready.size >= most) ready.clear();
    ready.set(key, made);
  }
  return made;
}
