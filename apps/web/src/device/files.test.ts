import type { BrowserAttachments } from '@firnbook/storage/browser';
import { describe, expect, it } from 'vitest';
import { startFiles } from './files.ts';

/** A device's files and a camp computer's, in memory. */
function twoSides() {
  const here = new Map<string, Uint8Array<ArrayBuffer>>();
  const there = new Map<string, Uint8Array<ArrayBuffer>>();
  const unsent = new Set<string>();
  const camp = { isAway: false };
  const store: BrowserAttachments = {
    async put(bytes) {
      const name = `name of ${bytes.length}`;
      here.set(name, bytes);
      unsent.add(name);
      return name;
    },
    get: async (name) => here.get(name) ?? null,
    unsent: async () => [...unsent],
    async confirm(name) {
      unsent.delete(name);
    },
  };
  const files = startFiles(
    'cer',
    {
      async putFile(_campaign, name, bytes) {
        if (camp.isAway) throw new Error('away');
        there.set(name, bytes);
      },
      getFile: async (_campaign, name) => (camp.isAway ? null : (there.get(name) ?? null)),
    },
    async () => store,
  );
  return { files, camp, here, there, unsent };
}

const picture = new Blob([new Uint8Array([1, 2, 3])]);

describe('photographs on a device', () => {
  it('keep answers when the file is here, and it goes to the camp computer by itself', async () => {
    const { files, there, unsent } = twoSides();
    const name = await files.keep(picture);
    await files.send();
    expect(there.get(name)).toEqual(new Uint8Array([1, 2, 3]));
    expect(unsent.size).toBe(0);
  });

  it('a file waits here while the camp computer is away, and goes with the next exchange', async () => {
    const { files, camp, there, unsent } = twoSides();
    camp.isAway = true;
    const name = await files.keep(picture);
    await files.send();
    expect(unsent.has(name)).toBe(true);
    camp.isAway = false;
    await files.send();
    expect(there.has(name)).toBe(true);
    expect(unsent.size).toBe(0);
  });

  it('read looks here first, then on the camp computer; nowhere is an answer and no error', async () => {
    const { files, there } = twoSides();
    there.set('elsewhere', new Uint8Array([9]));
    const found = await files.read('elsewhere');
    expect(new Uint8Array(await found!.arrayBuffer())).toEqual(new Uint8Array([9]));
    expect(await files.read('nowhere')).toBeNull();
  });
});
