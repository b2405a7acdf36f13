import { openPins } from '@firnbook/server';
import { Command } from 'commander';
import { askServer } from '../ask-server.ts';
import { existingDataFolder } from '../data-folder.ts';
import { type Desk, openDesk } from '../desk.ts';
import { findCampaign } from '../find-in-book.ts';
import { CommandError } from '../refusal.ts';
import { personOf } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';

const example = `
A PIN that was forgotten is reset here: the person chooses a new one where they pick their initials. What they wrote
before stays as it is. Tablets that were out of reach take the old PIN until they hear of it.

Example: firnbook people pin-reset KT
`;

interface Options {
  readonly campaign?: string;
  readonly data?: string;
}

/** A part of `firnbook people`. */
export const pinResetCommand = (terminal: Terminal): Command =>
  new Command('pin-reset')
    .description('let a person choose a new PIN, where the old one was forgotten')
    .argument('<initials>', 'of the person')
    .option('--campaign <name>', 'name or id of the campaign, where there are several')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (initials: string, own: Options, { parent }: Command) => {
      const options = { ...parent?.opts<Options>(), ...own };
      const folder = existingDataFolder(options.data, terminal);
      const desk = await openDesk(folder);
      try {
        const opened = await findCampaign(desk, options.campaign ?? (await onlyCampaign(desk)));
        if (!(await pinsAt(desk, folder).reset(opened.campaign, personOf(opened, initials))))
          throw new CommandError(`${initials} has no PIN`, 'people pin-reset', 'Nothing needs to be reset.');
        terminal.out(`${initials} has no PIN any more, and chooses one where the initials are picked.\n`);
      } finally {
        await desk.close();
      }
    });

export interface PinsAt {
  /** Ids of the people who have one. */
  list(campaign: string): Promise<ReadonlySet<string>>;
  /** False where the person has none. */
  reset(campaign: string, person: string): Promise<boolean>;
}

/** Through the server that runs, so that it knows at once; else in the folder, which the desk holds meanwhile. */
export const pinsAt = (desk: Desk, folder: string): PinsAt => {
  const has = async (campaign: string): Promise<ReadonlySet<string>> => {
    const lines =
      desk.camp.address === null
        ? openPins(folder).list(campaign)
        : ((await askServer(folder, pathOf(campaign), 'GET')) as readonly { readonly person: string }[]);
    return new Set(lines.map(({ person }) => person));
  };
  return {
    list: has,
    async reset(campaign, person) {
      if (desk.camp.address === null) return openPins(folder).reset({ campaign, person });
      if (!(await has(campaign)).has(person)) return false;
      await askServer(folder, `${pathOf(campaign)}/${encodeURIComponent(person)}/reset`, 'POST');
      return true;
    },
  };
};

const pathOf = (campaign: string): string => `/api/campaigns/${encodeURIComponent(campaign)}/pins`;

export const onlyCampaign = async (desk: Desk): Promise<string> => {
  const [first, ...more] = await desk.campaigns();
  if (first !== undefined && more.length === 0) return first;
  throw new CommandError('the book has not one campaign', '--campaign', 'Name the one that is meant.');
};
