import { type OpenWholeFiles, openWholeFiles } from './whole-files.ts';

/** A few small texts by name, kept as a whole in two files that are written in turn. */
export interface Twins {
  /** What was written last and is whole, with its number; null where nothing is. */
  read(): Promise<Written | null>;
  /** Resolves when it is flushed. A kill in the middle leaves what was written before. */
  write(written: Written): Promise<void>;
}

interface Written {
  /** The higher one is the later one. */
  readonly number: number;
  readonly texts: Readonly<Record<string, string>>;
}

/** Opens twins of a name; null where this browser or address offers no files. */
export async function openTwins(
  name: string,
  openFiles: OpenWholeFiles = openWholeFiles,
): Promise<Twins | null> {
  const files = await openFiles(`firnbook-${name}.`);
  if (files === null) return null;
  let turn = 0;
  const readOne = async (twin: string): Promise<Written | null> => {
    try {
      const { number, texts } = JSON.parse(new TextDecoder().decode(await files.read(twin))) as Written;
      return typeof number === 'number' && typeof texts === 'object' && texts !== null
        ? { number, texts }
        : null;
    } catch {
      // Not there yet, or half written.
      return null;
    }
  };
  return {
    async read() {
      const [a, b] = [await readOne('0'), await readOne('1')];
      const later = (a?.number ?? -1) > (b?.number ?? -1) ? a : b;
      // The next one is written over the earlier.
      turn = later === a ? 1 : 0;
      return later;
    },
    async write(written) {
      const twin = String(turn);
      turn = 1 - turn;
      await files.write(twin, new TextEncoder().encode(JSON.stringify(written)) as Uint8Array<ArrayBuffer>);
    },
  };
}
