import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { digest } from '@firnbook/journal';
import { expect, it } from 'vitest';
import { newCampaign, post, runLogged, sync, tablet } from './crew.suite.ts';
import { inFolder, temporaryFolder } from './folders.suite.ts';
import { startServer } from './start.ts';

const mounter = 'mount';
const unmounter = 'umount';

/** A disk of our own that can be filled without harm; needs the right to mount. */
function mountSmallDisk(folder: string): boolean {
  if (process.platform !== 'linux') return false;
  mkdirSync(folder, { recursive: true });
  return spawnSync(mounter, ['-t', 'tmpfs', '-o', 'size=192m', 'tmpfs', folder]).status === 0;
}

function mayMount(): boolean {
  const folder = temporaryFolder();
  const may = mountSmallDisk(folder.path);
  if (may) spawnSync(unmounter, [folder.path]);
  folder.remove();
  return may;
}

/** Another program's file takes every byte that is left. */
function fill(disk: string, name: string): void {
  const { bavail, bsize } = statfsSync(disk);
  const file = join(disk, name);
  writeFileSync(file, Buffer.alloc(bavail * bsize, 1));
  expect(statfsSync(disk).bavail).toBe(0);
}

it.skipIf(!mayMount())(
  'J4: on a full disk entries go into the reserve, then 507 with words; nothing acknowledged is lost, and a cold start works (skipped without the right to mount)',
  () =>
    inFolder(async (folder) => {
      const disk = join(folder, 'disk');
      mountSmallDisk(disk);
      try {
        const data = join(disk, 'data');
        const log: string[] = [];
        const options = {
          dataFolder: data,
          webFolder: folder,
          port: 0,
          log: (line: string) => void log.push(line),
        };
        const device = await tablet(newCampaign());
        await device.write([runLogged(0)]);
        const first = await startServer(options);
        await sync(device, first.address);

        fill(disk, 'foreign-1');
        await device.write(Array.from({ length: 400 }, (_, index) => runLogged(index)));
        await sync(device, first.address);
        expect(log.join()).toContain('reserve was given back');
        expect(existsSync(join(data, 'ballast'))).toBe(false);

        fill(disk, 'foreign-2');
        await device.write(Array.from({ length: 400 }, (_, index) => runLogged(index)));
        const refusal = await post(device.ask('camp'), first.address).catch(String);
        expect(refusal).toContain('The disk is full');
        const held = await (await fetch(`${first.address}/api/campaigns/${device.campaign}/digest`)).json();
        expect(held.entries).toBe(401);

        // Space is freed: the same server goes on.
        rmSync(join(disk, 'foreign-2'));
        await sync(device, first.address);
        expect(device.safety('camp').missing()).toEqual([]);
        await first.close();

        // With room the reserve is laid again; then a cold start without a single free byte.
        rmSync(join(disk, 'foreign-1'));
        await (await startServer(options)).close();
        expect(existsSync(join(data, 'ballast'))).toBe(true);
        fill(disk, 'foreign-3');
        const cold = await startServer(options);
        const after = await (await fetch(`${cold.address}/api/campaigns/${device.campaign}/digest`)).json();
        expect(after).toEqual({ entries: 801, digest: digest(device.ledger) });
        await device.write([runLogged(999)]);
        await sync(device, cold.address);
        expect(device.safety('camp').missing()).toEqual([]);
        await cold.close();
      } finally {
        spawnSync(unmounter, [disk]);
      }
    }),
);
