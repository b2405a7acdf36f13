import { createHash, randomUUID } from 'node:crypto';
import { readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { expect, it } from 'vitest';
import { openAttachmentPieces, PIECE_BYTES } from './attachment-pieces.ts';
import { openAttachments } from './attachments.ts';
import { inFolder } from './folders.suite.ts';

const bytes = Uint8Array.from({ length: 2 * PIECE_BYTES + 5 }, (_, at) => (at * 7 + (at >> 10)) % 253);
const name = createHash('sha256').update(bytes).digest('hex');
const part = (number: number) => bytes.subarray(number * PIECE_BYTES, (number + 1) * PIECE_BYTES);

const both = (folder: string) => {
  const attachments = openAttachments(join(folder, 'attachments'));
  return { attachments, pieces: openAttachmentPieces(attachments) };
};

it('an attachment is whole when its last piece came and its SHA-256 is right, and not before', () =>
  inFolder(async (folder) => {
    const { attachments, pieces } = both(folder);
    expect(await pieces.progress(name)).toEqual({ received: 0, isWhole: false });
    for (const number of [0, 1]) {
      const received = (number + 1) * PIECE_BYTES;
      expect(await pieces.add(name, bytes.length, number * PIECE_BYTES, part(number))).toEqual({
        received,
        isWhole: false,
      });
      expect(attachments.list()).toEqual([]);
    }
    // Another process goes on where this one was.
    const later = both(folder).pieces;
    expect(await later.progress(name)).toEqual({ received: 2 * PIECE_BYTES, isWhole: false });
    expect(await later.add(name, bytes.length, 2 * PIECE_BYTES, part(2))).toEqual({
      received: bytes.length,
      isWhole: true,
    });
    expect(await attachments.state(name)).toBe('held');
    expect(readdirSync(attachments.folder)).toEqual([name]);
    expect(await pieces.add(name, bytes.length, 0, part(0))).toMatchObject({ isWhole: true });
    expect(Buffer.concat([0, 1, 2].map((at) => pieces.read(name, at * PIECE_BYTES)!)).equals(bytes)).toBe(
      true,
    );
    expect(pieces.read(name, bytes.length)).toHaveLength(0);
  }));

it('a piece from elsewhere in the file, or again, changes nothing and is answered with how far it is', () =>
  inFolder(async (folder) => {
    const { pieces } = both(folder);
    await pieces.add(name, bytes.length, 0, part(0));
    const here = { received: PIECE_BYTES, isWhole: false };
    expect(await pieces.add(name, bytes.length, 0, part(0))).toEqual(here);
    expect(await pieces.add(name, bytes.length, 2 * PIECE_BYTES, part(2))).toEqual(here);
    expect(await pieces.add(name, PIECE_BYTES + 1, PIECE_BYTES, part(1))).toEqual(here);
  }));

it('two devices that send one file at the same time make it whole together', () =>
  inFolder(async (folder) => {
    const { attachments, pieces } = both(folder);
    const send = async () => {
      for (let at = 0, { received, isWhole } = { received: 0, isWhole: false }; !isWhole; at += 1) {
        ({ received, isWhole } = await pieces.add(
          name,
          bytes.length,
          received,
          bytes.subarray(received, received + PIECE_BYTES),
        ));
        if (at > 20) throw new Error('no end of it');
      }
    };
    await Promise.all([send(), send()]);
    expect(await attachments.state(name)).toBe('held');
  }));

it('bytes that are not those of the name are refused at the end and have to come anew', () =>
  inFolder(async (folder) => {
    const { attachments, pieces } = both(folder);
    const other = Uint8Array.from(part(0)).fill(9, 100, 130);
    await pieces.add(name, bytes.length, 0, other);
    await pieces.add(name, bytes.length, PIECE_BYTES, part(1));
    await expect(pieces.add(name, bytes.length, 2 * PIECE_BYTES, part(2))).rejects.toThrow('SHA-256');
    expect(await pieces.progress(name)).toEqual({ received: 0, isWhole: false });
    expect(readdirSync(attachments.folder)).toEqual([]);
  }));

it('what nobody finishes is forgotten by its age, and nothing else', () =>
  inFolder(async (folder) => {
    const { attachments, pieces } = both(folder);
    expect(pieces.forget(Date.now())).toBe(0);
    await pieces.add(name, bytes.length, 0, part(0));
    const other = 'ab'.repeat(32);
    await pieces.add(other, 10, 0, Uint8Array.of(1, 2, 3));
    const long = new Date(Date.now() - 8 * 86_400_000);
    utimesSync(join(attachments.folder, `partial-${name}`), long, long);
    // A kill while a whole file was coming.
    const killed = join(attachments.folder, `incoming-${randomUUID()}`);
    writeFileSync(killed, 'time,temp');
    utimesSync(killed, long, long);
    const small = bytes.subarray(0, 5);
    const whole = createHash('sha256').update(small).digest('hex');
    await attachments.put(whole, Readable.from([small]), 1000);
    utimesSync(join(attachments.folder, whole), long, long);
    expect(pieces.forget(Date.now() - 7 * 86_400_000)).toBe(2);
    expect(attachments.list()).toEqual([whole]);
    expect(await pieces.progress(name)).toEqual({ received: 0, isWhole: false });
    expect(await pieces.progress(other)).toEqual({ received: 3, isWhole: false });
  }));

it('more than a hundred unfinished ones are refused', () =>
  inFolder(async (folder) => {
    const { pieces } = both(folder);
    const names = Array.from({ length: 101 }, (_, at) => createHash('sha256').update(`${at}`).digest('hex'));
    for (const one of names.slice(0, 100)) await pieces.add(one, 2, 0, Uint8Array.of(1));
    await expect(pieces.add(names[100]!, 2, 0, Uint8Array.of(1))).rejects.toThrow('100 attachments');
    expect(await pieces.add(names[3]!, 3, 1, Uint8Array.of(2))).toMatchObject({ received: 2 });
  }));

it.each(['', '..', '../../etc/passwd', name.toUpperCase()])('"%s" is no name', (bad) =>
  inFolder(async (folder) => {
    const { pieces } = both(folder);
    await expect(pieces.progress(bad)).rejects.toThrow('SHA-256');
    await expect(pieces.add(bad, 1, 0, Uint8Array.of(1))).rejects.toThrow('SHA-256');
    expect(() => pieces.read(bad, 0)).toThrow('SHA-256');
  }),
);
