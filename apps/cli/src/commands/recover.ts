import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { hasNetwork, networkOn, recoverNetwork } from '@firnbook/server';
import {
  backedUpCampaigns,
  backupRecord,
  type FolderLock,
  isTrouble,
  listBackups,
  lockFolder,
  type Restored,
  readBackup,
  restore,
} from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { runningServer } from '../camp.ts';
import { dataFolder } from '../data-folder.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Brings every campaign on a stick back, each from its newest generation that is whole, and checks every entry. What was
written after that backup comes back from the tablets when they sync: let each of them, before anyone logs on.

The camp network comes back with them onto a computer that has none: tablets know it, and need not be paired again. The
device list is as old as that copy: revoke again who was revoked since. Where this computer's interface has another
name, say it with firnbook network use. --without-network leaves it.

Stop the server first; or leave it running and bring campaigns back on its first page.

With --rehearse nothing of the book is touched: all is brought back into a folder that is taken away again, and the
time it took is printed. Rehearse before you leave, and with every new stick.

Example, on a new computer: firnbook recover /media/stick-1
`;

interface Options {
  readonly data?: string;
  readonly campaign?: string;
  readonly generation?: string;
  readonly setAside?: boolean;
  readonly rehearse?: boolean;
  readonly withoutNetwork?: boolean;
}

export const recoverCommand = (terminal: Terminal): Command =>
  new Command('recover')
    .description('bring the book back from a stick, or rehearse it')
    .argument('<folder>', 'the stick, or another folder with backups')
    .option('--campaign <id>', 'this campaign alone')
    .option('--generation <number>', 'this generation, not the newest that is whole')
    .option('--set-aside', 'move a campaign that is there already aside (it is kept)')
    .option('--without-network', 'leave the camp network where it is')
    .option('--rehearse', 'only try it, and print the time')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (place: string, options: Options) => {
      const target = resolve(place);
      const campaigns = chosen(target, options);
      if (options.rehearse) return rehearse(target, campaigns, options, terminal);
      const folder = dataFolder(options.data, terminal);
      const running = await runningServer(folder);
      if (running !== null)
        throw new CommandError(
          'the server runs on this data folder',
          running,
          'Stop it with Ctrl-C, or bring the campaign back on its first page.',
        );
      const lock = lockFolder(folder, 'firnbook recover');
      try {
        for (const campaign of campaigns) {
          const back = await newestWhole(target, campaign, options, lock, terminal);
          terminal.out(told(back));
          if (back.setAside !== null) terminal.out(`  What was there is kept in ${back.setAside}\n`);
        }
        if (options.withoutNetwork !== true) bringNetwork(folder, target, terminal);
      } finally {
        lock.release();
      }
      terminal.out('Now start the server, and let every tablet sync before anyone logs on.\n');
    });

/** The camp network, where the stick has one and this computer has none: nothing is overwritten. */
const bringNetwork = (folder: string, target: string, terminal: Terminal): void => {
  if (networkOn(target) === null) return;
  if (hasNetwork(folder)) {
    terminal.out('The camp network of this computer stays as it is; the one on the stick was left.\n');
    return;
  }
  const { host, devices, madeAt, passedOver } = recoverNetwork(folder, target);
  for (const one of passedOver) terminal.err(`${one}: passed over.\n`);
  terminal.out(`${networkTold(host, devices, madeAt)}\n`);
  terminal.out(
    '  Look at firnbook devices, and revoke who was revoked since. firnbook network says how it is open.\n',
  );
};

const networkTold = (host: string | null, devices: number, madeAt: string): string =>
  `The camp network${host === null ? '' : ` of ${host}`}: ${devices === 1 ? '1 device' : `${devices} devices`}, as of ${madeAt}`;

const told = ({ campaign, entries, digest }: Restored): string =>
  `${campaign}: ${entries} entries, digest ${digest}, every one checked\n`;

const chosen = (target: string, { campaign }: Options): readonly string[] => {
  const there = backedUpCampaigns(target);
  if (there.length === 0)
    throw new CommandError('there is no backup here', target, 'Name the top folder of the stick.');
  if (campaign === undefined) return there;
  if (there.includes(campaign)) return [campaign];
  throw new CommandError(`campaign ${campaign} is not on it`, target, `There are ${there.join(', ')}.`);
};

/** Walks back from the newest generation until one is whole; says what was wrong with those passed over. */
const newestWhole = async (
  target: string,
  campaign: string,
  { generation, setAside }: Options,
  lock: FolderLock,
  terminal: Terminal,
): Promise<Restored> => {
  const all = listBackups(target, campaign).toReversed();
  const wanted = generation === undefined ? all : all.filter((path) => numberOf(path) === Number(generation));
  for (const path of wanted) {
    try {
      await readBackup(path);
    } catch (error) {
      if (!isTrouble(error)) throw error;
      terminal.err(`${path} is passed over: ${error.what}.\n`);
      continue;
    }
    return restore(lock, path, setAside === true);
  }
  throw new CommandError(
    wanted.length === 0 ? `there is no generation ${generation}` : 'no generation on it is whole',
    join(target, campaign),
    'Try the other stick, or leave out --generation.',
  );
};

const numberOf = (path: string): number | null => {
  try {
    return backupRecord(path).generation;
  } catch {
    return null;
  }
};

const rehearse = async (
  target: string,
  campaigns: readonly string[],
  options: Options,
  terminal: Terminal,
): Promise<void> => {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-rehearsal-'));
  const lock = lockFolder(folder, 'the rehearsal');
  const begun = performance.now();
  try {
    for (const campaign of campaigns)
      terminal.out(told(await newestWhole(target, campaign, options, lock, terminal)));
    if (options.withoutNetwork !== true) bringNetwork(folder, target, terminal);
    const seconds = ((performance.now() - begun) / 1000).toFixed(1);
    terminal.out(`Rehearsed in ${seconds} s. Nothing of the book was touched.\n`);
  } finally {
    lock.release();
    rmSync(folder, { recursive: true, force: true });
  }
};
