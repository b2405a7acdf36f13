import { resolve } from 'node:path';
import { backUpNetwork, hasNetwork } from '@firnbook/server';
import { backUp, listCampaigns } from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { existingDataFolder } from '../data-folder.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Copies every campaign as it is at this moment, also while the server runs, and reads each copy back. A backup never
overwrites an older one: it becomes FOLDER/<campaign>/generation-0001, -0002 and so on.

Example: firnbook backup /media/stick-1
  0190f3c2-...: 214 entries, digest 5f0c..., checked, in /media/stick-1/0190f3c2-.../generation-0003

The camp network goes beside them where there is one: the key of its certificate, paired devices, PINs. What a finder
could do with that stands under firnbook stick --help; --without-network leaves it out.

Keep two sticks and take one away from camp.
`;

export const backupCommand = (terminal: Terminal): Command =>
  new Command('backup')
    .description('copy the book to a folder, for example on a stick, and read the copy back')
    .argument('<folder>', 'where the backup goes')
    .option('--without-network', "leave out keys, list of devices and PINs of the camp's network")
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(
      async (target: string, options: { readonly data?: string; readonly withoutNetwork?: boolean }) => {
        const folder = existingDataFolder(options.data, terminal);
        const campaigns = listCampaigns(folder);
        if (campaigns.length === 0)
          throw new CommandError(
            'there is no campaign to back up',
            folder,
            'Choose another folder with --data.',
          );
        for (const id of campaigns) {
          terminal.err(`Copying ${id} ...\n`);
          const backup = await backUp(folder, id, resolve(target));
          terminal.out(
            `${id}: ${backup.entries} entries, digest ${backup.digest}, checked, in ${backup.folder}\n`,
          );
          for (const name of backup.damaged)
            terminal.err(
              `Attachment ${name} is damaged here and was not copied. Restore it from an older backup.\n`,
            );
        }
        if (options.withoutNetwork !== true && hasNetwork(folder)) {
          const made = backUpNetwork(folder, resolve(target));
          terminal.out(
            made === null
              ? 'The camp network lies there as it is.\n'
              : `The camp network, read back, generation ${made.generation}. Keep this medium as you keep a key.\n`,
          );
        }
      },
    );
