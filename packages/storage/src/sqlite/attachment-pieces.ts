import {
  closeSync,
  createReadStream,
  openSync,
  readdirSync,
  readSync,
  rmSync,
  statSync,
  truncateSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { trouble } from '../trouble.ts';
import { type Attachments, attachmentName } from './attachments.ts';
import { makeFolder } from './flush.ts';
import { ioTrouble } from './io-trouble.ts';

/** Bytes that travel at once. */
export const PIECE_BYTES = 1024 * 1024;

/** How far an attachment has come; all of it where it is whole. */
interface Progress {
  readonly received: number;
  readonly isWhole: boolean;
}

/** Attachments that come and go in pieces, so that a broken connection costs one piece and not the file. */
export interface AttachmentPieces {
  progress(sha256: string): Promise<Progress>;
  /**
   * Adds what follows what is here; anything else changes nothing. The last piece resolves when the whole file was
   * checked and flushed.
   *
   * @param size of the whole attachment
   * @throws StoreTrouble 'refused' when the whole is not what its name says (it has to come anew), or when too many are
   *   unfinished; 'disk full'
   */
  add(sha256: string, size: number, offset: number, bytes: Uint8Array): Promise<Progress>;
  /** Bytes of a whole attachment from `offset` on, at most one piece; null where it is not here. */
  read(sha256: string, offset: number): Uint8Array | null;
  /** Forgets what has been unfinished since before this time (ms since 1970), as after a kill. @returns how many */
  forget(before: number): number;
}

const partialForm = /^partial-[0-9a-f]{64}$/;
/** A file that was coming whole (attachments.ts). */
const incomingForm = /^incoming-[0-9a-f-]{36}$/;

/** Unfinished at one time. A camp has ten tablets, each sending one. */
const most = 100;

export function openAttachmentPieces(attachments: Attachments): AttachmentPieces {
  const { folder } = attachments;
  const place = (sha256: string) => join(folder, `partial-${attachmentName(sha256)}`);
  /** Two devices may send one file at the same time: one piece after the other. */
  const tails = new Map<string, Promise<unknown>>();

  function inTurn<T>(sha256: string, work: () => Promise<T>): Promise<T> {
    const done = (tails.get(sha256) ?? Promise.resolve()).then(work, work);
    const tail = done
      .catch(() => undefined)
      .finally(() => {
        if (tails.get(sha256) === tail) tails.delete(sha256);
      });
    tails.set(sha256, tail);
    return done;
  }

  const partials = (): readonly string[] => readFolder(folder).filter((name) => partialForm.test(name));

  async function progress(sha256: string): Promise<Progress> {
    const whole = attachments.path(sha256);
    if (whole !== null && (await attachments.state(sha256)) === 'held')
      return { received: statSync(whole).size, isWhole: true };
    return { received: sizeOf(place(sha256)) ?? 0, isWhole: false };
  }

  function append(sha256: string, bytes: Uint8Array): void {
    const file = place(sha256);
    const before = sizeOf(file);
    if (before === null && partials().length >= most)
      throw trouble(
        'refused',
        `${most} attachments are unfinished here`,
        sha256,
        'Let the devices that send them finish; what nobody finishes is forgotten after seven days.',
      );
    try {
      makeFolder(folder);
      const out = openSync(file, 'a');
      try {
        for (let at = 0; at < bytes.length; ) at += writeSync(out, bytes, at);
      } finally {
        closeSync(out);
      }
    } catch (error) {
      // Half a piece stays out: a device goes on from where whole ones end.
      if (before === null) rmSync(file, { force: true });
      else truncateSync(file, before);
      throw ioTrouble(error, file);
    }
  }

  return {
    progress: (sha256) => inTurn(sha256, () => progress(sha256)),
    add: (sha256, size, offset, bytes) =>
      inTurn(sha256, async () => {
        const file = place(sha256);
        const before =
          sizeOf(file) === null ? await progress(sha256) : { received: sizeOf(file)!, isWhole: false };
        if (before.isWhole || before.received !== offset || offset + bytes.length > size) return before;
        append(sha256, bytes);
        const received = offset + bytes.length;
        if (received < size) return { received, isWhole: false };
        try {
          await attachments.put(sha256, createReadStream(file), size);
        } finally {
          rmSync(file, { force: true });
        }
        return { received, isWhole: true };
      }),
    read: (sha256, offset) => {
      const file = attachments.path(sha256);
      if (file === null) return null;
      const open = openSync(file, 'r');
      try {
        const bytes = new Uint8Array(PIECE_BYTES);
        return bytes.subarray(0, readSync(open, bytes, 0, PIECE_BYTES, offset));
      } finally {
        closeSync(open);
      }
    },
    forget: (before) => {
      const unfinished = readFolder(folder).filter(
        (name) => partialForm.test(name) || incomingForm.test(name),
      );
      const old = unfinished.filter((name) => statSync(join(folder, name)).mtimeMs < before);
      for (const name of old) rmSync(join(folder, name), { force: true });
      return old.length;
    },
  };
}

function sizeOf(file: string): number | null {
  return statSync(file, { throwIfNoEntry: false })?.size ?? null;
}

function readFolder(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    // Made with the first attachment.
    return [];
  }
}
