import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeScratch, type Scratch } from './folders.ts';
import { runLossyCamp } from './lossy-camp.ts';

let scratch: Scratch;
beforeAll(() => {
  scratch = makeScratch('lossy');
});
afterAll(() => scratch.remove());

describe('S5: three tablets, a bad network, a killed server, an old backup, a destroyed tablet', () => {
  it('all sides end with the same digest, and every entry that was ticked is there', async () => {
    const end = await runLossyCamp(join(scratch.path, 'right'), 31, true);
    process.stdout.write(`S5 three tablets: ${JSON.stringify(end)}\n`);
    expect(new Set(end.digests).size).toBe(1);
    expect(end).toMatchObject({ lostFromTablets: 0, lostFromCamp: 0, kills: 3 });
    // It was worth the trouble: the network did its worst, and the backup really was an old one.
    expect(end.troubles).toBeGreaterThan(5);
    expect(end.setBack[0]).toBeLessThan(end.setBack[1]);
  }, 600_000);

  it('control: with a server that answers before it stores, the destroyed tablet’s ticks were lies', async () => {
    const end = await runLossyCamp(join(scratch.path, 'wrong'), 32, false);
    expect(end.lostFromCamp).toBeGreaterThan(0);
  }, 600_000);
});
