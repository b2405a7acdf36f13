/** A file that is open for this code alone: what the browser's FileSystemSyncAccessHandle offers, as far as used. */
export interface OpenFile {
  getSize(): number;
  read(into: Uint8Array, place: { at: number }): number;
  write(bytes: Uint8Array, place: { at: number }): number;
  truncate(size: number): void;
  flush(): void;
}

/** Where a file of lines ends: its last whole line, and the size up to and with it. */
export interface End {
  readonly line: string | null;
  readonly size: number;
}

export interface Page {
  readonly lines: readonly string[];
  /** Where the next page begins; null after the last. */
  readonly next: number | null;
}

/*
 * A file of JSON lines that is only ever added to. A line counts when it is whole: ended by a line feed, and JSON.
 * What a kill or a power cut leaves behind the last whole line was never acknowledged; the next addition begins by
 * cutting it off. (LevelDB, under Chromium's IndexedDB, goes on writing behind such a torn record instead, calls the
 * file damaged at the start after that, and Chromium then deletes the database.)
 */

const feed = 10;
const decoder = new TextDecoder();

/** @param step bytes looked at first, from the end; ever more where they hold no whole line */
export function endOf(file: OpenFile, step = 1 << 16): End {
  const size = file.getSize();
  for (let window = step; ; window *= 4) {
    const from = Math.max(0, size - window);
    const bytes = readBytes(file, from, size);
    let end = bytes.lastIndexOf(feed);
    while (end !== -1) {
      const before = end === 0 ? -1 : bytes.lastIndexOf(feed, end - 1);
      // Without the line feed before it, a line may have begun before this window.
      if (before === -1 && from > 0) break;
      const line = decoder.decode(bytes.subarray(before + 1, end));
      if (isJson(line)) return { line, size: from + end + 1 };
      end = before;
    }
    if (from === 0) return { line: null, size: 0 };
  }
}

/** Whole lines from a place on, about `room` bytes of them, at least one where there is one. Damaged lines are left out. */
export function pageOf(file: OpenFile, from: number, room = 1 << 20): Page {
  const size = file.getSize();
  for (let window = room; ; window *= 4) {
    const to = Math.min(size, from + window);
    const bytes = readBytes(file, from, to);
    const end = bytes.lastIndexOf(feed);
    if (end === -1 && to < size) continue;
    if (end === -1) return { lines: [], next: null };
    const lines = decoder.decode(bytes.subarray(0, end)).split('\n').filter(isJson);
    return { lines, next: from + end + 1 < size ? from + end + 1 : null };
  }
}

/**
 * Adds lines behind the last whole one and flushes. Nothing happens where the file does not end at `size`: another
 * tab has added meanwhile.
 *
 * @returns the new size, or null where nothing happened
 * @throws QuotaExceededError where not all of it could be written; the file is as before then
 */
export function addLines(file: OpenFile, lines: readonly string[], size: number): number | null {
  if (endOf(file).size !== size) return null;
  return writeBytes(file, new TextEncoder().encode(lines.map((line) => `${line}\n`).join('')), size);
}

/**
 * Writes bytes from a place on, as the new end of the file, and flushes.
 *
 * @returns the new size
 * @throws QuotaExceededError where not all of it could be written; the file ends at the place then
 */
export function writeBytes(file: OpenFile, bytes: Uint8Array, at: number): number {
  file.truncate(at);
  const written = file.write(bytes, { at });
  if (written !== bytes.length) {
    file.truncate(at);
    throw new DOMException(`${written} of ${bytes.length} bytes were written`, 'QuotaExceededError');
  }
  file.flush();
  return at + written;
}

export function readBytes(file: OpenFile, from: number, to: number): Uint8Array {
  const bytes = new Uint8Array(to - from);
  return bytes.subarray(0, file.read(bytes, { at: from }));
}

function isJson(line: string): boolean {
  try {
    JSON.parse(line);
    return true;
  } catch {
    return false;
  }
}
