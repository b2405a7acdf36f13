import { createHash } from 'node:crypto';
import { closeSync, constants, openSync, readSync } from 'node:fs';

/** What lies on the medium. */
export interface ReadBack {
  /** Lower-case hex. */
  readonly sha256: string;
  /** Whether it came from the medium itself and not from the computer's memory of what was written. */
  readonly isPastCache: boolean;
}

const pieceBytes = 1024 * 1024;

/**
 * SHA-256 of a file as it lies on its medium: read past the operating system's cache where the system and the medium
 * let us (Linux, not on a disk in memory), else through it, and it says which. Flush the file first.
 */
export function readBack(file: string): ReadBack {
  const digest = createHash('sha256');
  const isPastCache = readPieces(file, (piece) => void digest.update(piece));
  return { sha256: digest.digest('hex'), isPastCache };
}

/** Hands out the file piece by piece; each piece is overwritten by the next. @returns whether past the cache */
export function readPieces(file: string, see: (piece: Uint8Array) => void): boolean {
  const direct = openDirect(file);
  const handle = direct ?? openSync(file, 'r');
  try {
    const piece = direct === null ? Buffer.allocUnsafeSlow(pieceBytes) : alignedPiece(direct);
    for (let position = 0; ; ) {
      const count = readSync(handle, piece, 0, pieceBytes, position);
      if (count > 0) see(piece.subarray(0, count));
      position += count;
      if (count < pieceBytes) return direct !== null;
    }
  } finally {
    closeSync(handle);
  }
}

/** Null where the system or the medium has no such way of reading. */
function openDirect(file: string): number | null {
  const flag = (constants as { readonly O_DIRECT?: number }).O_DIRECT;
  if (flag === undefined) return null;
  let handle: number | null = null;
  try {
    handle = openSync(file, constants.O_RDONLY | flag);
    alignedPiece(handle);
    return handle;
  } catch {
    if (handle !== null) closeSync(handle);
    return null;
  }
}

/** Memory at an address that the device can write to: which one that is only trying tells. */
function alignedPiece(handle: number): Buffer {
  const page = 4096;
  const raw = Buffer.allocUnsafeSlow(pieceBytes + page);
  for (let start = 0; start < page; start += 8) {
    try {
      readSync(handle, raw, start, page, 0);
      return raw.subarray(start, start + pieceBytes);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EINVAL') throw error;
    }
  }
  throw new Error('No address in memory suits the device.');
}
