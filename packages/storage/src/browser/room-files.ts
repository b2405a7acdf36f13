import { type OpenFile, readBytes, writeBytes } from './lines.ts';

/** Bytes that one call adds to the ballast: a slow disk writes them well before silence counts as a failure. */
const step = 1 << 20;
/** The canary begins anew at this size. */
const longestSong = 1 << 20;

/**
 * Lays a little more ballast, up to a size, flushed and read back. The bytes are random: a disk that packs what it
 * keeps must not make them small.
 *
 * @returns the size now
 * @throws QuotaExceededError where it does not fit
 */
export function layMore(file: OpenFile, upTo: number): number {
  const at = file.getSize();
  if (at >= upTo) return at;
  const bytes = noise(Math.min(step, upTo - at));
  const size = writeBytes(file, bytes, at);
  const back = readBytes(file, at, size);
  if (back.some((byte, index) => byte !== bytes[index]))
    throw new Error('The ballast did not read back as it was written.');
  return size;
}

/**
 * Writes bytes that nobody needs behind the last ones, so that they take new room: where they don't fit, the next
 * entry would not either.
 *
 * @param isFlushed waits for the disk; without, the file system has set the room aside
 * @throws QuotaExceededError where they don't fit
 */
export function sing(file: OpenFile, count: number, isFlushed: boolean): void {
  if (file.getSize() + count > longestSong) file.truncate(0);
  const at = file.getSize();
  const written = file.write(noise(count), { at });
  if (written !== count) {
    file.truncate(at);
    throw new DOMException(`${written} of ${count} bytes were written`, 'QuotaExceededError');
  }
  if (isFlushed) file.flush();
}

/**
 * Writes so much and gives the room back.
 *
 * @throws QuotaExceededError where it does not fit
 */
export function probe(file: OpenFile, count: number): void {
  file.truncate(0);
  try {
    writeBytes(file, noise(count), 0);
  } finally {
    letGo(file);
  }
}

/** Gives the room of a file back and leaves its name: on a full disk a name may be hard to take away. */
export function letGo(file: OpenFile): void {
  file.truncate(0);
  file.flush();
}

function noise(count: number): Uint8Array {
  const bytes = new Uint8Array(count);
  // The browser gives no more than this at once.
  const most = 1 << 16;
  for (let at = 0; at < count; at += most) crypto.getRandomValues(bytes.subarray(at, at + most));
  return bytes;
}
