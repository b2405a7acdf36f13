import {
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type JsonWebKey,
  type KeyObject,
  sign,
} from 'node:crypto';
import {
  chmodSync,
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import type { Signer } from '@firnbook/journal';
import { trouble } from '../trouble.ts';
import { flushFolder } from './flush.ts';

/**
 * The key that a computer signs its entries with, made at the first call: PKCS #8 in a file of its own, readable by
 * its owner alone. It stays in this folder: no backup carries it, and whoever restores one writes under a new name.
 *
 * @param folder whose lock is the caller's
 * @throws StoreTrouble 'refused' where the file can't be read, holds something else, or can't be made
 */
export function openDeviceKey(folder: string): Signer {
  const file = join(folder, 'device-key.pem');
  try {
    if (!existsSync(file)) make(folder, file);
    // A folder that was copied or unpacked may have opened it to others.
    chmodSync(file, 0o600);
    const key = createPrivateKey(readFileSync(file));
    if (key.asymmetricKeyType !== 'ed25519')
      throw new Error(`it holds a key of type ${key.asymmetricKeyType}`);
    return {
      key: publicHalf(key),
      sign: (text) => sign(null, Buffer.from(text, 'utf8'), key).toString('base64url'),
    };
  } catch (error) {
    throw trouble(
      'refused',
      `The key that signs entries can't be used: ${error instanceof Error ? error.message : String(error)}`,
      file,
      'Look whether the file can be read and the disk has room. Where it is damaged, move it away: a new key is made, under a new device name.',
      error,
    );
  }
}

function publicHalf(key: KeyObject): string {
  const { x } = createPublicKey(key).export({ format: 'jwk' }) as JsonWebKey;
  return x ?? '';
}

/** Under another name first, so that a power cut leaves a whole key or none. */
function make(folder: string, file: string): void {
  const pem = generateKeyPairSync('ed25519').privateKey.export({ type: 'pkcs8', format: 'pem' });
  const unfinished = `${file}.unfinished`;
  rmSync(unfinished, { force: true });
  const handle = openSync(unfinished, 'wx', 0o600);
  try {
    writeSync(handle, pem as string);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
  renameSync(unfinished, file);
  flushFolder(folder);
}
