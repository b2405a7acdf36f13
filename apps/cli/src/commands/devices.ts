import { type DeviceRecord, openDevices } from '@firnbook/server';
import { lockFolder } from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { askServer } from '../ask-server.ts';
import { runningServer } from '../camp.ts';
import { existingDataFolder } from '../data-folder.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';
import { countWords, heldInFolder, type WroteIn, wroteInFolder } from '../wrote-in-folder.ts';

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
      const { devices, wrote } = await withDevices(folder, async (reached) => ({
        devices: await reached.list(),
        wrote: await reached.wrote(),
      }));
      terminal.out(listed(devices, wrote));
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
  readonly wrote: () => readonly WroteIn[] | Promise<readonly WroteIn[]>;
  readonly revoke: (id: string) => unknown;
}

/** Through the server that runs, so that it knows at once; else in the folder, which is held meanwhile. */
const withDevices = async <T>(folder: string, work: (devices: Reached) => T | Promise<T>): Promise<T> => {
  if ((await runningServer(folder)) !== null)
    return work({
      list: async () => (await askServer(folder, '/api/devices', 'GET')) as readonly DeviceRecord[],
      wrote: async () => (await askServer(folder, '/api/devices/entries', 'GET')) as readonly WroteIn[],
      revoke: (id) => askServer(folder, `/api/devices/${encodeURIComponent(id)}/revoke`, 'POST'),
    });
  const lock = lockFolder(folder, 'firnbook devices');
  try {
    const devices = openDevices(folder);
    return await work({
      list: devices.list,
      wrote: () => wroteInFolder(folder, devices.list()),
      revoke: (id) => devices.revoke(id, heldInFolder(folder, devices.list(), id)),
    });
  } finally {
    lock.release();
  }
};

const listed = (devices: readonly DeviceRecord[], wrote: readonly WroteIn[]): string => {
  if (devices.length === 0) return 'No device is paired. To pair one: firnbook pair\n';
  const width = Math.max(...devices.map(({ name }) => name.length));
  return devices
    .map(({ id, name, pairedAt, lastSeen, revokedAt, publicKey, otherKey }) => {
      const state = revokedAt === null ? `seen ${short(lastSeen)}` : `revoked ${short(revokedAt)}`;
      const own = wrote
        .filter(({ device }) => device === id)
        .map((one) => `  ${one.name}: ${countWords(one)}\n`);
      const other =
        otherKey === null || revokedAt !== null
          ? ''
          : `  It has shown another key since ${short(otherKey.at)}. Ask who has it; then revoke it and pair it again.\n`;
      const none =
        publicKey === null ? '  It has shown no key: which entries it signed can not be told.\n' : '';
      return `${name.padEnd(width)}  ${state}, paired ${short(pairedAt)} (UTC)\n${none}${own.join('')}${other}`;
    })
    .join('');
};

const short = (at: string): string => at.slice(0, 16).replace('T', ' ');
