import { type DeviceRecord, openDevices } from '@firnbook/server';
import { lockFolder } from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { askServer } from '../ask-server.ts';
import { runningServer } from '../camp.ts';
import { existingDataFolder } from '../data-folder.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

const example = `
A device that is lost, stolen or given away is revoked: the camp computer refuses it from its next request on, and its
screen says so. What it wrote before stays in the book.

Example: firnbook devices revoke "tablet 3"
`;

interface Folder {
  readonly data?: string;
}

export const devicesCommand = (terminal: Terminal): Command => {
  const command = new Command('devices')
    .description('list the paired tablets and phones')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (options: Folder) => {
      const folder = existingDataFolder(options.data, terminal);
      terminal.out(listed(await withDevices(folder, ({ list }) => list())));
    });
  command
    .command('revoke')
    .description('let a device in no more')
    .argument('<name>', 'its name, as the list says')
    .option('--data <folder>', 'data folder of the book')
    .action(async (name: string, own: Folder, { parent }: Command) => {
      const folder = existingDataFolder(own.data ?? parent?.opts<Folder>().data, terminal);
      await withDevices(folder, async ({ list, revoke }) => {
        const device = (await list()).find((one) => one.name === name && one.revokedAt === null);
        if (device === undefined)
          throw new CommandError(`no device of that name may come in`, name, 'See: firnbook devices.');
        await revoke(device.id);
      });
      terminal.out(`${name} is let in no more. What it wrote stays in the book.\n`);
    });
  return command;
};

interface Reached {
  readonly list: () => readonly DeviceRecord[] | Promise<readonly DeviceRecord[]>;
  readonly revoke: (id: string) => unknown;
}

/** Through the server that runs, so that it knows at once; else in the folder, which is held meanwhile. */
const withDevices = async <T>(folder: string, work: (devices: Reached) => T | Promise<T>): Promise<T> => {
  if ((await runningServer(folder)) !== null)
    return work({
      list: async () => (await askServer(folder, '/api/devices', 'GET')) as readonly DeviceRecord[],
      revoke: (id) => askServer(folder, `/api/devices/${encodeURIComponent(id)}/revoke`, 'POST'),
    });
  const lock = lockFolder(folder, 'firnbook devices');
  try {
    return await work(openDevices(folder));
  } finally {
    lock.release();
  }
};

const listed = (devices: readonly DeviceRecord[]): string => {
  if (devices.length === 0) return 'No device is paired. To pair one: firnbook pair\n';
  const width = Math.max(...devices.map(({ name }) => name.length));
  return devices
    .map(({ name, pairedAt, lastSeen, revokedAt }) => {
      const state = revokedAt === null ? `seen ${short(lastSeen)}` : `revoked ${short(revokedAt)}`;
      return `${name.padEnd(width)}  ${state}, paired ${short(pairedAt)} (UTC)\n`;
    })
    .join('');
};

const short = (at: string): string => at.slice(0, 16).replace('T', ' ');
