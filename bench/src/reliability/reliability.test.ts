import { seeded } from '@firnbook/science/random';
import { describe, expect, it } from 'vitest';
import { backUpUnderLoad, drillRestore } from './backups.ts';
import { damageJournal } from './bit-flips.ts';
import { control, noFlush } from './camp-parts.ts';
import { createDiskModel } from './disk-model.ts';
import { canMount, cutExt4 } from './ext4.ts';
import { hasTracer, traceAnswers } from './flush-order.ts';
import { sweepErrors } from './io-errors.ts';
import { runLong } from './long-run.ts';
import { comeBackFromOldBackup } from './old-backup.ts';
import type { Part } from './part.ts';
import { cutThePower } from './power-cut.ts';
import { tryRealParts } from './real-parts.ts';
import { readAsked, runParts } from './run-parts.ts';
import { answersFirst, answersLate } from './server-process.ts';
import { figureLine } from './table.ts';
import { readTrace } from './trace.ts';
import { killUpgrades } from './upgrade-kills.ts';

// The same as `npm run soak`, at a size for every test run. Each has a control: the same test on a store that is wrong.

const traced = hasTracer();
const tell = (line: string): void => void process.stdout.write(`${line}\n`);

describe.skipIf(!traced)('D2: flush before answer (skipped without the program strace)', () => {
  it('J4: every answer that acknowledges comes after the flush of what it acknowledges', async () => {
    const order = await traceAnswers(300);
    tell(figureLine('D2', 'flush before answer', order));
    expect(order).toEqual({ answers: 300, early: 0 });
  }, 240_000);

  it('J4 control: with synchronous=NORMAL the same test sees answers before the flush', async () => {
    const order = await traceAnswers(100, [noFlush]);
    expect(order.answers).toBe(100);
    expect(order.early).toBeGreaterThan(90);
  }, 240_000);
});

describe.skipIf(!traced)('D3: power cut at any write (skipped without the program strace)', () => {
  it('loses no acknowledged entry, whatever becomes of what was not flushed', () => {
    const cuts = cutThePower({ entries: 50, batch: 4, seed: 20, states: 1200 });
    tell(figureLine('D3', 'power-cut states', cuts));
    expect(cuts).toMatchObject({ lost: 0, corrupt: 0, acknowledged: 50 });
    expect(cuts.states).toBeGreaterThan(900);
  });

  it('control: with synchronous=NORMAL the same states show entries gone in more than one of five', () => {
    const cuts = cutThePower({
      entries: 30,
      batch: 4,
      seed: 21,
      states: 300,
      preload: [noFlush],
    });
    expect(cuts.plainLost / cuts.plain).toBeGreaterThan(0.2);
  });
});

describe.skipIf(!traced)('D5: a write or a flush fails (skipped without the program strace)', () => {
  it('nothing acknowledged is lost, then or in a power cut after it', () => {
    const sweep = sweepErrors({ points: 9, seed: 22, states: 40 });
    tell(figureLine('D5', 'I/O errors', sweep));
    expect(sweep).toMatchObject({ points: 9, lost: 0, statesLost: 0 });
    expect(sweep.refused).toBeGreaterThan(0);
  });

  it('control: a store that swallows the error is caught', () => {
    const sweep = sweepErrors({ points: 9, seed: 3, states: 20, preload: [control('swallow-errors')] });
    expect(sweep.lost + sweep.statesLost).toBeGreaterThan(0);
  });
});

describe.skipIf(!canMount())('D4: power cut on a real ext4 (skipped where no image can be mounted)', () => {
  it('loses no acknowledged entry', async () => {
    const cuts = await cutExt4({ rounds: 5, seed: 24 });
    tell(figureLine('D4', 'ext4 power cuts', cuts));
    expect(cuts).toMatchObject({ rounds: 5, lostRounds: 0 });
    expect(cuts.acknowledged).toBeGreaterThan(20);
  });

  it('control: with synchronous=NORMAL rounds lose entries', async () => {
    const cuts = await cutExt4({ rounds: 6, seed: 25, preload: [noFlush] });
    expect(cuts.lostRounds).toBeGreaterThan(0);
  });
});

// D1 and D6 of this size are in apps/server (kill.test.ts, disk.test.ts); D7's bits are in packages/storage
// (verify.test.ts), what else can befall a file is here.
describe('D7: damaged files', () => {
  it('wiped sectors, exchanged pages, cut ends: found where they change anything, and the row named', async () => {
    const flips = await damageJournal(300, 26);
    tell(figureLine('D7', 'damaged files', flips));
    expect(flips.changed).toBeGreaterThan(100);
    expect([flips.detected, flips.named]).toEqual([flips.changed, flips.nameable]);
    // The control: what the database's own check finds of the same.
    expect(flips.byStructureAlone).toBeLessThan(flips.changed / 2);
  });
});

describe('D8: backups while tablets write', () => {
  it('each holds what was acknowledged before it began', async () => {
    const backups = await backUpUnderLoad(6, 'ours');
    tell(figureLine('D8', 'backups under load', backups));
    expect(backups).toMatchObject({ backups: 6, complete: 6, mostMissing: 0 });
  }, 240_000);

  it('control: a copy of the file that most people would make lacks entries', async () => {
    const { complete, mostMissing } = await backUpUnderLoad(3, 'copied');
    expect(complete).toBeLessThan(3);
    expect(mostMissing).toBeGreaterThan(0);
  }, 240_000);

  it('the drill: from a stick to a server that answers; control: a stick with a changed bit is refused', async () => {
    const drill = await drillRestore(2000);
    tell(figureLine('D8', 'restore, timed', drill));
    expect(drill).toMatchObject({ isSame: true, isDamageRefused: true });
  }, 240_000);
});

describe('D9: a lost camp computer, an old backup, the tablets that are left', () => {
  it('everything that any of them holds is back', async () => {
    const back = await comeBackFromOldBackup('all');
    tell(figureLine('D9', 'old backup, then tablets', back));
    expect(back).toMatchObject({
      before: 240,
      restored: 120,
      after: 320,
      ofTheLost: 40,
      lost: 0,
      isSame: true,
    });
  }, 240_000);

  it('control: where tablets bring back only what they wrote themselves, the lost one’s entries are gone', async () => {
    expect(await comeBackFromOldBackup('own')).toMatchObject({ lost: 40, isSame: false });
  }, 240_000);
});

describe.skipIf(!traced)('D10: an upgrade that is killed (skipped without the program strace)', () => {
  it('leaves the old version or the new one, and every entry', () => {
    const upgrades = killUpgrades({ stride: 6 });
    tell(figureLine('D10', 'upgrades killed', upgrades));
    expect(upgrades).toMatchObject({ between: 0, lost: 0 });
    expect(upgrades.journals).toBeGreaterThan(0);
    expect(upgrades.old).toBeGreaterThan(0);
    expect(upgrades.new).toBeGreaterThan(0);
  }, 240_000);

  it('control: an upgrade in pieces leaves files between two versions', () => {
    const wrong = killUpgrades({ stride: 9, preload: [control('upgrade-in-pieces')] });
    expect(wrong.between).toBeGreaterThan(0);
  }, 240_000);
});

describe('S5: real parts behind a lossy proxy', () => {
  it('40 runs: kills, an old backup, destroyed tablets; all end with the same and nothing is lost', async () => {
    const parts = await tryRealParts({ runs: 40, seed: 27 });
    tell(figureLine('S5', 'real parts', parts));
    expect(parts).toMatchObject({ runs: 40, violations: 0 });
    expect(Math.min(parts.cuts, parts.replays, parts.destroyed, parts.restored)).toBeGreaterThan(10);
  }, 600_000);

  it('control: with a server that answers before it stores, what a tablet ticked is gone', async () => {
    const parts = await tryRealParts({ runs: 20, seed: 28, preload: [answersLate] });
    expect(parts.violations).toBeGreaterThan(0);
  }, 600_000);
});

describe('D11: a long run, here a short one', () => {
  const camp = { minutes: 0.2, killEvery: 4, clients: 6, rest: 100, entryEvery: 5 };

  it('loses nothing over kills, and its log stays small', async () => {
    const long = await runLong(camp);
    tell(figureLine('D11', 'long run', long));
    expect(long.lost).toBe(0);
    expect(long.kills).toBeGreaterThan(0);
    expect(long.acknowledged).toBeGreaterThan(5);
    expect(long.logMegabytes).toBeLessThan(64);
  }, 120_000);

  it('control: a server that answers before it stores loses some', async () => {
    expect((await runLong({ ...camp, preload: [answersFirst] })).lost).toBeGreaterThan(0);
  }, 120_000);
});

describe('npm run soak', () => {
  const part = (id: string, more: Partial<Part> = {}): Part => ({
    ...{ id, what: `part ${id}` },
    run: async (tell) => {
      tell.figure('figures', { rounds: 7 }, true);
      tell.control('wrong one', { lost: 3 }, true);
    },
    ...more,
  });
  const run = async (parts: readonly Part[], ids: readonly string[] = []) => {
    const lines: string[] = [];
    const total = await runParts(parts, { ids, minutes: 1 }, (line) => lines.push(line));
    return { ...total, text: lines.join('\n') };
  };

  it('counts figures and controls that hold, and says those that were asked for alone', async () => {
    const all = await run([part('D1'), part('D2')]);
    expect(all).toMatchObject({ holds: 4, failed: 0, leftOut: 0 });
    expect(all.text).toMatch(
      /^D1 +figures +rounds 7 {2}holds \(0 s\)\nD1 +control: wrong one +lost 3 {2}caught/,
    );
    expect(await run([part('D1'), part('D2')], ['D2'])).toMatchObject({ holds: 2 });
  });

  it('fails with a figure that does not hold, a control that is not caught, and a part that breaks', async () => {
    const bad = part('D1', {
      run: async (tell) => {
        tell.figure('figures', { lost: 1 }, false);
        tell.control('wrong one', { lost: 0 }, false);
        throw new Error('the disk is on fire');
      },
    });
    const told = await run([bad]);
    expect(told).toMatchObject({ holds: 0, failed: 3 });
    expect(told.text).toMatch(/FAILS[\s\S]*NOT CAUGHT[\s\S]*BROKE: the disk is on fire/);
  });

  it('takes nothing from a part without a control', async () => {
    const bare = part('D1', { run: async (tell) => tell.figure('figures', {}, true) });
    expect(await run([bare])).toMatchObject({ holds: 1, failed: 1 });
  });

  it('counts what can’t run here as left out, and as failed where it was asked for', async () => {
    const parts = [part('D1', { lacks: () => 'no such program' }), part('D2')];
    const told = await run(parts);
    expect(told).toMatchObject({ holds: 2, failed: 0, leftOut: 1 });
    expect(told.text).toContain('left out: no such program');
    expect(await run(parts, ['D1'])).toMatchObject({ holds: 0, failed: 1, leftOut: 0 });
  });

  it('reads what a person asks for, and says what parts there are', () => {
    expect(readAsked([], ['D1'])).toEqual({ ids: [], minutes: 30 });
    expect(readAsked(['s5', '--minutes', '2.5', 'D1'], ['D1', 'S5'])).toEqual({
      ids: ['S5', 'D1'],
      minutes: 2.5,
    });
    expect(() => readAsked(['D77'], ['D1', 'S5', 'S5'])).toThrow('no part D77. Parts: D1 S5;');
    expect(() => readAsked(['--minutes', 'many'], ['D1'])).toThrow('--minutes NUMBER');
  });
});

describe('the model of a disk', () => {
  const bytes = (...values: number[]) => Uint8Array.from(values);
  const random = seeded(5);

  it('keeps what was flushed, and loses or keeps the rest', () => {
    const disk = createDiskModel();
    disk.apply({ do: 'write', file: 'a', at: 0, bytes: bytes(1, 2, 3, 4) });
    disk.apply({ do: 'flush', file: 'a' });
    disk.apply({ do: 'write', file: 'a', at: 2, bytes: bytes(9, 9, 9) });
    expect(disk.afterCut('all lost', random).get('a')).toEqual(bytes(1, 2, 3, 4));
    expect(disk.afterCut('all kept', random).get('a')).toEqual(bytes(1, 2, 9, 9, 9));
    disk.apply({ do: 'cut', file: 'a', length: 1 });
    expect(disk.afterCut('all kept', random).get('a')).toEqual(bytes(1));
    disk.apply({ do: 'write', file: 'a', at: 3, bytes: bytes(7) });
    expect(disk.afterCut('all kept', random).get('a')).toEqual(bytes(1, 0, 0, 7));
  });

  it('forgets what a failed flush could not write, as kernels do', () => {
    const disk = createDiskModel();
    disk.apply({ do: 'write', file: 'a', at: 0, bytes: bytes(1) });
    disk.apply({ do: 'failed flush', file: 'a' });
    disk.apply({ do: 'flush', file: 'a' });
    expect(disk.afterCut('all kept', random).get('a')).toEqual(bytes());
  });
});

describe('the reader of traces', () => {
  it('joins calls that were broken in two, and knows acknowledgements from other output', () => {
    const hex = (text: string) =>
      [...Buffer.from(text)].map((byte) => `\\x${byte.toString(16).padStart(2, '0')}`).join('');
    const trace = [
      '7 pwrite64(20</d/j-wal>, "\\x01\\x02", 2, 32 <unfinished ...>',
      `8 write(1<pipe:[1]>, "${hex('ack 9\n')}", 6) = 6`,
      '7 <... pwrite64 resumed>) = 2',
      '7 fdatasync(20</d/j-wal>) = 0',
      '7 fdatasync(20</d/j-wal>) = -1 EIO (Input/output error) (INJECTED)',
      `7 write(3</d/acks>, "${hex('ack 4\n')}", 6) = 6`,
      '7 ftruncate(20</d/j-wal>, 0) = 0',
    ].join('\n');
    expect(readTrace(trace, (path) => path.endsWith('j-wal'))).toEqual([
      { do: 'write', file: '/d/j-wal', at: 32, bytes: Buffer.from([1, 2]) },
      { do: 'flush', file: '/d/j-wal' },
      { do: 'failed flush', file: '/d/j-wal' },
      { do: 'ack', entries: 4 },
      { do: 'cut', file: '/d/j-wal', length: 0 },
    ]);
  });
});
