import { hashBytes } from '@firnbook/journal';
import { type DBSchema, openDB } from 'idb';
import { trouble } from '../trouble.ts';
import { type Guard, roomGuard } from './guard.ts';
import { lasting, reopeningBytes } from './lasting.ts';
import { settled } from './settled.ts';
import { type OpenWholeFiles, openWholeFiles } from './whole-files.ts';

/** Files beside a campaign's journal in this browser, each under the SHA-256 of its bytes. */
export interface BrowserAttachments {
  /**
   * Keeps bytes; resolves with their SHA-256 (64 lower-case hex digits) when a strict commit was read back and the
   * second copy is flushed.
   *
   * @throws StoreTrouble 'disk full' or 'unknown fate'
   */
  put(bytes: Uint8Array<ArrayBuffer>): Promise<string>;
  /** The bytes as they were kept; null where they are not here, or no longer are what their name says. */
  get(sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
  /** Files that the camp computer has not confirmed, in the order of their names. */
  unsent(): Promise<readonly string[]>;
  /** The camp computer has the file. */
  confirm(sha256: string): Promise<void>;
}

interface Layout extends DBSchema {
  files: { key: string; value: Uint8Array<ArrayBuffer> };
  unsent: { key: string; value: true };
}

const strict = { durability: 'strict' } as const;

/**
 * Opens a campaign's files on this device: a database of their own, as big files must not slow the journal. Chromium
 * can drop it (see store.ts), so a file rests in the browser's file system too until the camp computer has it; what
 * the database lost of those comes back here, to be sent.
 *
 * @param openSecond where the second copies go; a test may have none
 */
export async function openBrowserAttachments(
  campaign: string,
  openSecond: OpenWholeFiles = openWholeFiles,
  guard: Guard = roomGuard(),
): Promise<BrowserAttachments> {
  const name = `firnbook-${campaign}-files`;
  const open = () =>
    settled(
      openDB<Layout>(name, 1, {
        upgrade: (made) => {
          made.createObjectStore('files');
          made.createObjectStore('unsent');
        },
        blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
      }),
      'Opening the files',
      name,
    );
  await guard.begin();
  const db = await open();
  const connection = lasting(db, async () => {
    await guard.admit(reopeningBytes);
    return open();
  });

  const write = async (sha256: string, bytes: Uint8Array<ArrayBuffer>) => {
    const tx = (await connection.now()).transaction(['files', 'unsent'], 'readwrite', strict);
    const kept = [
      tx.objectStore('files').put(bytes, sha256),
      tx.objectStore('unsent').put(true, sha256),
      tx.done,
    ];
    await settled(Promise.all(kept), 'Saving a file', name);
  };

  const second = await openSecond(`${name}.`);
  if (second !== null) {
    const there = await second.names();
    for (const sha256 of there) {
      if ((await db.count('files', sha256)) === 0) {
        const bytes = await settled(second.read(sha256), 'Reading the second copy', name);
        // What a kill left half written was never acknowledged.
        if (hashBytes(bytes) === sha256) await write(sha256, bytes);
      } else if ((await db.count('unsent', sha256)) === 0) await second.remove(sha256);
    }
    for (const sha256 of await db.getAllKeys('unsent')) {
      const bytes = there.includes(sha256) ? undefined : await db.get('files', sha256);
      if (bytes !== undefined) await settled(second.write(sha256, bytes), 'Saving the second copy', name);
    }
  }

  const get = async (sha256: string) => {
    const bytes = await settled((await connection.now()).get('files', sha256), 'Reading a file', name);
    return bytes !== undefined && hashBytes(bytes) === sha256 ? bytes : null;
  };

  return {
    get,
    put: async (bytes) => {
      const sha256 = hashBytes(bytes);
      await guard.admit(2 * bytes.length);
      try {
        await write(sha256, bytes);
        if ((await get(sha256)) === null)
          throw trouble(
            'unknown fate',
            'A file did not read back as it was written',
            name,
            'Keep the picture where it was taken, and try again.',
          );
        if (second !== null) await settled(second.write(sha256, bytes), 'Saving the second copy', name);
      } catch (error) {
        await guard.failed();
        throw error;
      }
      return sha256;
    },
    unsent: async () =>
      settled((await connection.now()).getAllKeys('unsent'), 'Reading the list of files', name),
    confirm: async (sha256) => {
      await settled((await connection.now()).delete('unsent', sha256), 'Noting a file', name);
      // Not there where it was kept before there were second copies; opening takes away what is left.
      await second?.remove(sha256).catch(() => undefined);
    },
  };
}
