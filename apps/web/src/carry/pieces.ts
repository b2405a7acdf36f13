import { hashBytes } from '@firnbook/journal';

const PIECE_BYTES = 1024 * 1024;
/** One piece over a weak camp network, ms. */
const patience = 60_000;
/** Times that a connection may break without any bytes getting through. */
const tries = 4;

/** Files to and from the camp computer a piece at a time: a connection that breaks costs one piece. */
export interface PieceTalk {
  /** Resolves when the whole file is on the camp computer's disk. Goes on from what it has already. */
  send(place: string, bytes: Uint8Array<ArrayBuffer>): Promise<void>;
  /** Null where the camp computer does not have the whole file. Goes on from what came before. */
  fetch(place: string, sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
}

/** The camp computer answered, and the answer was no: asking again would not help. */
class Refused extends Error {}

/**
 * @param ask the browser's fetch
 * @param pause waits some ms
 */
export function startPieceTalk(
  ask: typeof fetch,
  pause: (ms: number) => Promise<void> = (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
): PieceTalk {
  /** What came of files that are not whole yet, by their place. */
  const begun = new Map<string, Uint8Array<ArrayBuffer>[]>();

  const once = async (path: string, init: RequestInit = {}): Promise<Response | null> => {
    const answer = await ask(path, { ...init, cache: 'no-store', signal: AbortSignal.timeout(patience) });
    if (answer.status === 404) return null;
    if (!answer.ok) throw new Refused(`The camp computer answered ${answer.status} to a file.`);
    return answer;
  };

  const progress = async (place: string) => read(await once(place));

  /** Does a step until it is done; a broken connection is waited out, as long as bytes get through now and then. */
  const persist = async (step: () => Promise<boolean>): Promise<void> => {
    for (let broken = 0, isDone = false; !isDone; ) {
      try {
        isDone = await step();
        broken = 0;
      } catch (error) {
        broken += 1;
        if (error instanceof Refused || broken >= tries) throw error;
        await pause(250 * 2 ** broken);
      }
    }
  };

  return {
    async send(place, bytes) {
      let at: number | null = null;
      let stuck = 0;
      await persist(async () => {
        // After a break nobody knows whether the piece got through.
        const before = at === null ? await progress(place) : { received: at, isWhole: false };
        if (before.isWhole) return true;
        const from: number = before.received;
        at = null;
        const answer = await once(`${place}/${from}?size=${bytes.length}`, {
          method: 'PUT',
          headers: { 'content-type': 'application/octet-stream' },
          body: bytes.subarray(from, from + PIECE_BYTES),
        });
        const { received, isWhole } = await read(answer);
        stuck = received > from ? 0 : stuck + 1;
        if (!isWhole && stuck >= tries) throw new Refused('The camp computer takes no more of a file.');
        at = received;
        return isWhole;
      });
    },

    async fetch(place, sha256) {
      const { received: size, isWhole } = await progress(place);
      if (!isWhole) return null;
      const parts = begun.get(place) ?? [];
      begun.set(place, parts);
      let length = parts.reduce((sum, part) => sum + part.length, 0);
      await persist(async () => {
        if (length >= size) return true;
        const answer = await once(`${place}/${length}`);
        const part = new Uint8Array(answer === null ? [] : await answer.arrayBuffer());
        if (part.length === 0) throw new Refused('The camp computer has no more of a file.');
        parts.push(part);
        length += part.length;
        return length >= size;
      });
      begun.delete(place);
      const bytes = new Uint8Array(await new Blob(parts).arrayBuffer());
      return hashBytes(bytes) === sha256 ? bytes : null;
    },
  };
}

/** Another program may sit at this address. */
const read = async (answer: Response | null) => {
  if (answer === null) return { received: 0, isWhole: false };
  const { received, isWhole } = (await answer.json()) as { received?: unknown; isWhole?: unknown };
  if (!Number.isSafeInteger(received) || typeof isWhole !== 'boolean')
    throw new Refused('What answers at this address is not the camp computer.');
  return { received: received as number, isWhole };
};
