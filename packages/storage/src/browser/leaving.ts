import type { OpenFile } from './lines.ts';

/*
 * A page of Chromium (156) crashes where it is left while its file worker is inside `write` or `truncate`. So the page
 * that is being left lets no such call begin, and stays until the one that is under way has ended. Both threads look at
 * two words that they share; a browser that does not let them, as before there were policies for it, goes without.
 */

/** Places of the words. */
const leaving = 0;
const changing = 1;

/** What page and worker share. */
export type Gate = Int32Array<SharedArrayBuffer>;

/** A call takes a millisecond; a page that hangs for longer than this is worse than one that crashes when it is left. */
const longestWait = 250;

/** Null where pages and workers may share no memory. */
export const makeGate = (): Gate | null =>
  globalThis.crossOriginIsolated ? new Int32Array(new SharedArrayBuffer(8)) : null;

/** Page: nothing is begun any more; returns when nothing is under way. */
export function leave(gate: Gate): void {
  Atomics.store(gate, leaving, 1);
  for (const start = performance.now(); Atomics.load(gate, changing) === 1; )
    if (performance.now() - start > longestWait) return;
}

/** Page: it was left and is shown again. */
export const stay = (gate: Gate): void => void Atomics.store(gate, leaving, 0);

/**
 * Worker. It fails and does not wait: a thread that waits keeps its file, and the next page can't have it until the
 * browser ends the thread by force.
 *
 * @throws DOMException 'AbortError' where the page is being left; nothing was changed
 */
export function change<Result>(gate: Gate, work: () => Result): Result {
  try {
    // Said first and looked at then: the page does it in the other order, so one of the two sees the other.
    Atomics.store(gate, changing, 1);
    if (Atomics.load(gate, leaving) === 1) throw new DOMException('The page is being left.', 'AbortError');
    return work();
  } finally {
    Atomics.store(gate, changing, 0);
  }
}

/** A file whose changes go through the gate. */
export function gated(file: OpenFile, gate: Gate): OpenFile {
  return {
    getSize: () => file.getSize(),
    read: (into, place) => file.read(into, place),
    flush: () => file.flush(),
    write: (bytes, place) => change(gate, () => file.write(bytes, place)),
    truncate: (size) => change(gate, () => file.truncate(size)),
  };
}
