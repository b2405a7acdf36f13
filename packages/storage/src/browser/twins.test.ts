import { describe, expect, it } from 'vitest';
import { openTwins } from './twins.ts';
import type { OpenWholeFiles } from './whole-files.ts';

function lend() {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const open: OpenWholeFiles = async (prefix) => ({
    names: async () => [...files.keys()],
    read: async (name) => {
      const bytes = files.get(prefix + name);
      if (bytes === undefined) throw new DOMException('no', 'NotFoundError');
      return bytes;
    },
    write: async (name, bytes) => void files.set(prefix + name, bytes),
    remove: async (name) => void files.delete(prefix + name),
  });
  return { files, open };
}

describe('twins', () => {
  it('hold what was written last, over any number of starts', async () => {
    const { open } = lend();
    expect(await (await openTwins('drafts', open))!.read()).toBeNull();
    for (let number = 1; number <= 5; number += 1) {
      const twins = (await openTwins('drafts', open))!;
      const before = await twins.read();
      expect(before?.number ?? 0).toBe(number - 1);
      await twins.write({ number, texts: { run: `1${number}` } });
      expect(await (await openTwins('drafts', open))!.read()).toEqual({
        number,
        texts: { run: `1${number}` },
      });
    }
  });

  it('a kill in the middle of writing leaves what was written before', async () => {
    const { files, open } = lend();
    const twins = (await openTwins('drafts', open))!;
    await twins.read();
    for (const number of [1, 2, 3]) await twins.write({ number, texts: { run: `${number}` } });
    for (const [name, bytes] of files)
      if (new TextDecoder().decode(bytes).includes('"number":3')) files.set(name, bytes.slice(0, 20));
    expect((await (await openTwins('drafts', open))!.read())?.number).toBe(2);
  });

  it('a browser without files has none', async () => {
    expect(await openTwins('drafts', async () => null)).toBeNull();
  });
});
