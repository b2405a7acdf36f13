import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** SHA-256 of bytes that come bit by bit. */
export interface RunningHash {
  add(bytes: Uint8Array): void;
  /** Lower-case hex of what was added until now; more can follow. */
  soFar(): string;
}

export const runningHash = (): RunningHash => {
  const hash = sha256.create();
  return {
    add: (bytes) => void hash.update(bytes),
    soFar: () => bytesToHex(hash.clone().digest()),
  };
};
