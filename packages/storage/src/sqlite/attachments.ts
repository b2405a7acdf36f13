import { createHash, randomUUID } from 'node:crypto';
import { createReadStream, existsSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { trouble } from '../trouble.ts';
import { flushFile, flushFolder, makeFolder } from './flush.ts';
import { ioTrouble } from './io-trouble.ts';

/** An attachment is held, not (yet) here, or here with other bytes than its name says. None of them is an error. */
export type AttachmentState = 'held' | 'missing' | 'damaged';

export interface Attachments {
  readonly folder: string;
  /**
   * Keeps bytes under their SHA-256; resolves when they are flushed. The same bytes again change nothing; a
   * damaged copy is set aside and replaced.
   *
   * @throws StoreTrouble 'refused' when the bytes are not the ones of the name or more than `limit`; 'disk full'
   */
  put(sha256: string, bytes: AsyncIterable<Uint8Array>, limit: number): Promise<void>;
  /** Reads the whole file to know. */
  state(sha256: string): Promise<AttachmentState>;
  /** Path of the file when it is there (checked or not). */
  path(sha256: string): string | null;
  /** Names of everything held, sorted. */
  list(): readonly string[];
}

const nameForm = /^[0-9a-f]{64}$/;

/**
 * The server makes file names: nothing but a digest becomes one.
 *
 * @throws StoreTrouble 'refused' for anything else
 */
export function attachmentName(sha256: string): string {
  if (nameForm.test(sha256)) return sha256;
  throw trouble(
    'refused',
    'An attachment is named by its SHA-256, 64 lower-case hex digits',
    sha256.slice(0, 80),
    'Compute the digest of the file and use that.',
  );
}

export function openAttachments(folder: string): Attachments {
  const place = (sha256: string) => join(folder, attachmentName(sha256));

  async function state(sha256: string): Promise<AttachmentState> {
    const file = place(sha256);
    if (!existsSync(file)) return 'missing';
    return (await digestOfFile(file)) === sha256 ? 'held' : 'damaged';
  }

  return {
    folder,
    state,
    path: (sha256) => (existsSync(place(sha256)) ? place(sha256) : null),
    list: () =>
      existsSync(folder)
        ? readdirSync(folder)
            .filter((name) => nameForm.test(name))
            .sort()
        : [],
    put: async (sha256, bytes, limit) => {
      const file = place(sha256);
      makeFolder(folder);
      const incoming = join(folder, `incoming-${randomUUID()}`);
      try {
        const got = await receive(bytes, incoming, limit);
        if (got !== sha256)
          throw trouble(
            'refused',
            `The bytes have SHA-256 ${got}`,
            sha256,
            'The file was changed on its way: send it again.',
          );
        flushFile(incoming);
        const before = await state(sha256);
        if (before === 'held') return;
        if (before === 'damaged') renameSync(file, `${file}.damaged-${randomUUID()}`);
        renameSync(incoming, file);
        flushFolder(folder);
      } finally {
        rmSync(incoming, { force: true });
      }
    },
  };
}

/** SHA-256 of a file's bytes, lower-case hex. */
export async function digestOfFile(file: string): Promise<string> {
  const digest = createHash('sha256');
  await pipeline(createReadStream(file), digest);
  return digest.digest('hex');
}

/** Digest of what was written. The file is open before its first byte, and shut before this ends either way. */
async function receive(bytes: AsyncIterable<Uint8Array>, file: string, limit: number): Promise<string> {
  const digest = createHash('sha256');
  let total = 0;
  const incoming = await open(file, 'wx');
  try {
    for await (const chunk of bytes) {
      total += chunk.length;
      if (total > limit)
        throw trouble(
          'refused',
          `The file is larger than ${limit} bytes`,
          file,
          'Split it, or keep it elsewhere.',
        );
      digest.update(chunk);
      await incoming.appendFile(chunk).catch((error) => {
        throw ioTrouble(error, file);
      });
    }
  } finally {
    await incoming.close();
  }
  return digest.digest('hex');
}
