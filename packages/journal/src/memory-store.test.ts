import { expect, it } from 'vitest';
import { copyMemoryDisk, createMemoryDisk, createMemoryStore, type MemoryFault } from './memory-store.ts';
import { inventedChain } from './simulation/invented.ts';

const sealed = inventedChain('d', 3).map((entry) => entry.sealed);

it('keeps rows in the order of storing, each once, and notes, for the next store over the same disk', async () => {
  const disk = createMemoryDisk('e1');
  const store = createMemoryStore('c', disk);
  await store.append([sealed[1]!]);
  await store.append([sealed[0]!, sealed[1]!, sealed[2]!]);
  await store.setNote('device', 'd');
  await store.close();
  const next = createMemoryStore('c', disk);
  expect(await next.load()).toEqual([sealed[1], sealed[0], sealed[2]]);
  expect(await next.loadAfter!(1)).toEqual([sealed[0], sealed[2]]);
  expect([await next.note('device'), await next.note('nothing'), await next.epoch()]).toEqual([
    'd',
    null,
    'e1',
  ]);
});

it.each([
  ['refused', 0],
  ['kept', 2],
] as const)('an append that is %s rejects and leaves %i rows', async (fault, count) => {
  const disk = createMemoryDisk('e');
  const faults = { append: (): MemoryFault => fault, setNote: (): MemoryFault => fault };
  const store = createMemoryStore('c', disk, faults);
  await expect(store.append(sealed.slice(0, 2))).rejects.toThrow(fault);
  await expect(store.setNote('n', 'x')).rejects.toThrow(fault);
  expect(disk.rows).toHaveLength(count);
  expect(disk.notes.size).toBe(count / 2);
});

it('copyMemoryDisk shares nothing with the original', async () => {
  const disk = createMemoryDisk('e1');
  const copy = copyMemoryDisk(disk, 'e2');
  await createMemoryStore('c', disk).append(sealed);
  expect([copy.rows.length, copy.epoch]).toEqual([0, 'e2']);
});
