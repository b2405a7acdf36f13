import { createHash, pbkdf2 } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { setTimeout } from 'node:timers/promises';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';
import { openAttachments } from './attachments.ts';
import { inFolder } from './folders.suite.ts';

const bytes = Buffer.from('time,temperature_C\n09:40,-31.5\n');
const name = createHash('sha256').update(bytes).digest('hex');
const stream = (content: Uint8Array) => Readable.from([content.subarray(0, 7), content.subarray(7)]);

it('put keeps the bytes under their SHA-256, and the same again changes nothing', () =>
  inFolder(async (folder) => {
    const attachments = openAttachments(join(folder, 'attachments'));
    expect(await attachments.state(name)).toBe('missing');
    expect(attachments.list()).toEqual([]);
    await attachments.put(name, stream(bytes), 1000);
    await attachments.put(name, stream(bytes), 1000);
    expect(await attachments.state(name)).toBe('held');
    expect(attachments.list()).toEqual([name]);
    expect(readFileSync(attachments.path(name)!).equals(bytes)).toBe(true);
    expect(readdirSync(attachments.folder)).toEqual([name]);
  }));

it('put refuses bytes of another digest and bytes over the limit, and leaves nothing behind', () =>
  inFolder(async (folder) => {
    const attachments = openAttachments(folder);
    await expect(attachments.put(name, stream(Buffer.from('other bytes')), 1000)).rejects.toThrow('SHA-256');
    await expect(attachments.put(name, stream(bytes), 10)).rejects.toThrow('larger than 10 bytes');
    expect(readdirSync(folder)).toEqual([]);
  }));

it('nothing is left behind either where the disk is slow to open the file', () =>
  inFolder(async (folder) => {
    const attachments = openAttachments(folder);
    for (let round = 0; round < 10; round += 1) {
      // Work before it in Node's few threads for files: an open that is asked for now comes later.
      const busy = Array.from({ length: 6 }, () => promisify(pbkdf2)('word', 'salt', 20_000, 32, 'sha256'));
      await expect(attachments.put(name, stream(bytes), 10)).rejects.toThrow('larger than 10 bytes');
      await Promise.all(busy);
    }
    await setTimeout(50);
    expect(readdirSync(folder)).toEqual([]);
  }));

it('a changed file is damaged; put sets it aside and heals it', () =>
  inFolder(async (folder) => {
    const attachments = openAttachments(folder);
    await attachments.put(name, stream(bytes), 1000);
    writeFileSync(join(folder, name), 'rust');
    expect(await attachments.state(name)).toBe('damaged');
    await attachments.put(name, stream(bytes), 1000);
    expect(await attachments.state(name)).toBe('held');
    expect(readdirSync(folder).length).toBe(2);
  }));

it.each(['', '..', '../../etc/passwd', name.toUpperCase(), `${name}/x`, name.slice(1)])(
  '"%s" is no name',
  (bad) =>
    inFolder(async (folder) => {
      await expect(openAttachments(folder).state(bad)).rejects.toThrow('SHA-256');
    }),
);
