import { createPublicKey, generateKeyPairSync, sign, verify } from 'node:crypto';
import type { Signer, Verify } from './signature.ts';

/** Node's Ed25519, for tests: the journal itself has it lent by the platform. */
export const verifyByNode: Verify = (key, signature, text) => {
  try {
    const jwk = { kty: 'OKP', crv: 'Ed25519', x: key };
    const made = createPublicKey({ key: jwk, format: 'jwk' });
    return verify(null, Buffer.from(text, 'utf8'), made, Buffer.from(signature, 'base64url'));
  } catch {
    return false;
  }
};

export function newSigner(): Signer {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  return {
    key: String(publicKey.export({ format: 'jwk' }).x),
    sign: (text) => sign(null, Buffer.from(text, 'utf8'), privateKey).toString('base64url'),
  };
}
