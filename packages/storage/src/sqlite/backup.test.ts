import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { digestOf } from '@firnbook/journal';
import { expect, it } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { openAttachments } from './attachments.ts';
import { backUp, listBackups, readBackup } from './backup.ts';
import { campaignPaths, listCampaigns } from './folder.ts';
import { inFolder } from './folders.suite.ts';
import { lockFolder } from './lock.ts';
import { restore } from './restore.ts';
import { openSqliteStore } from './store.ts';
import { verifyJournal } from './verify.ts';

const photograph = Buffer.from('invented bytes of a photograph');
const photographName = createHash('sha256').update(photograph).digest('hex');

async function makeCampaign(data: string, count: number) {
  const paths = campaignPaths(data, suiteCampaign);
  const store = openSqliteStore(paths.journal, suiteCampaign);
  await store.append(chainOf(count));
  await openAttachments(paths.attachments).put(photographName, Readable.from([photograph]), 1000);
  return store;
}

it('ten backups while entries are being stored are each whole up to what was acknowledged at their start', () =>
  inFolder(async (folder) => {
    const data = join(folder, 'data');
    const store = await makeCampaign(data, 1);
    const chain = chainOf(4000);
    let acknowledged = 1;
    let writing = true;
    const work = (async () => {
      while (writing && acknowledged < chain.length) {
        await store.append(chain.slice(acknowledged, acknowledged + 5));
        acknowledged += 5;
      }
    })();
    const backups = [];
    for (let round = 0; round < 10; round += 1) {
      const before = acknowledged;
      const backup = await backUp(data, suiteCampaign, join(folder, 'stick'));
      expect(backup.entries).toBeGreaterThanOrEqual(before);
      expect(backup.digest).toBe(digestOf(chain.slice(0, backup.entries).map((entry) => entry.hash)));
      backups.push(backup);
    }
    writing = false;
    await work;
    expect(acknowledged).toBeGreaterThan(50);
    expect(backups.map((backup) => backup.generation)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
    await store.close();
    for (const [round, backup] of backups.entries()) {
      const lock = lockFolder(join(folder, `restored-${round}`), 'the test');
      await restore(lock, backup.folder, false);
      const restored = verifyJournal(campaignPaths(lock.folder, suiteCampaign).journal);
      expect(restored).toMatchObject({ ok: true, entries: backup.entries, digest: backup.digest });
      lock.release();
    }
  }));

it('backUp copies attachments once for all generations and names damaged ones', () =>
  inFolder(async (folder) => {
    const data = join(folder, 'data');
    await (await makeCampaign(data, 2)).close();
    const stick = join(folder, 'stick');
    const first = await backUp(data, suiteCampaign, stick);
    expect(first).toMatchObject({ attachments: [photographName], damaged: [], entries: 2 });
    const other = 'ab'.repeat(32);
    writeFileSync(join(campaignPaths(data, suiteCampaign).attachments, other), 'not these bytes');
    const second = await backUp(data, suiteCampaign, stick);
    expect(second).toMatchObject({ attachments: [photographName], damaged: [other], generation: 2 });
    expect(readdirSync(join(stick, suiteCampaign, 'attachments'))).toEqual([photographName]);
    expect(listBackups(stick, suiteCampaign)).toEqual([first.folder, second.folder]);
    expect(await readBackup(first.folder)).toMatchObject({ digest: first.digest });
  }));

it('backUp leaves no half-made generation behind when the source does not check', () =>
  inFolder(async (folder) => {
    const data = join(folder, 'data');
    await (await makeCampaign(data, 50)).close();
    const { journal } = campaignPaths(data, suiteCampaign);
    const bytes = readFileSync(journal);
    writeFileSync(journal, bytes.fill(0, bytes.length - 8192, bytes.length - 4096));
    await expect(backUp(data, suiteCampaign, join(folder, 'stick'))).rejects.toThrow();
    expect(readdirSync(join(folder, 'stick', suiteCampaign))).toEqual([]);
  }));

it('backUp of a campaign that is not there says so', () =>
  inFolder(async (folder) => {
    await expect(backUp(folder, suiteCampaign, folder)).rejects.toThrow('There is no campaign');
  }));

it('readBackup finds a changed journal and a lost attachment', () =>
  inFolder(async (folder) => {
    const data = join(folder, 'data');
    await (await makeCampaign(data, 20)).close();
    const { folder: generation } = await backUp(data, suiteCampaign, join(folder, 'stick'));
    const journal = join(generation, 'journal.sqlite');
    const bytes = readFileSync(journal);
    bytes[bytes.length - 100] = bytes[bytes.length - 100]! ^ 1;
    writeFileSync(journal, bytes);
    await expect(readBackup(generation)).rejects.toThrow('was changed');
    const next = await backUp(data, suiteCampaign, join(folder, 'stick'));
    writeFileSync(join(next.folder, '..', 'attachments', photographName), 'rust');
    await expect(readBackup(next.folder)).rejects.toThrow('is damaged');
    await expect(readBackup(folder)).rejects.toThrow('no finished backup');
  }));

it('restore moves a campaign that is there aside only when asked, and deletes nothing', () =>
  inFolder(async (folder) => {
    const data = join(folder, 'data');
    const store = await makeCampaign(data, 3);
    const { folder: generation } = await backUp(data, suiteCampaign, join(folder, 'stick'));
    await store.append(chainOf(5));
    await store.close();
    const lock = lockFolder(data, 'the test');
    await expect(restore(lock, generation, false)).rejects.toThrow('in this data folder already');
    const { setAside } = await restore(lock, generation, true);
    expect(verifyJournal(join(setAside!, 'journal.sqlite')).entries).toBe(5);
    const paths = campaignPaths(data, suiteCampaign);
    expect(verifyJournal(paths.journal).entries).toBe(3);
    expect(await openAttachments(paths.attachments).state(photographName)).toBe('held');
    expect(listCampaigns(data)).toEqual([suiteCampaign]);
    expect(existsSync(`${paths.folder}.restoring-${process.pid}`)).toBe(false);
    lock.release();
  }));
