import { randomUUID } from 'node:crypto';
import { resolve } from 'node:path';
import {
  knownSticks,
  knowStick,
  namedAuthority,
  networkCopiedAt,
  takeNetworkOff,
  verifiedBackups,
} from '@firnbook/server';
import { type CapacityTest, nameStick, readStick, testCapacity } from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { dataFolder } from '../data-folder.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Name a stick once, and write the name on it. From then on the server writes to it by itself whenever it is in: a new
generation with what is new, read back from the stick, at most every five minutes. Without a folder it lists the sticks.

A new stick is tested first: 256 MB are written and read back. Sticks are sold that name more room than they have, and
only filling one finds it out as far as it was filled: --test all fills it, which can take hours.

Beside the campaigns goes the camp network: the key of the camp's certificate, the list of paired devices, the crew's
PINs. With it another computer takes the place of a broken one, and no tablet is paired again. Whoever finds the stick
can read the campaigns; with that key they can pose as the camp computer to your tablets on a network where both are,
and as nothing else; and they can try out short PINs. --without-network leaves it out, and takes it off a stick that has
it.

Nothing that lies on the stick is changed. On the camp computer's own screen the same is done without a terminal.

Example: firnbook stick /media/stick-1 --name red
`;

interface Options {
  readonly data?: string;
  readonly name?: string;
  readonly test: string;
  readonly withoutNetwork?: boolean;
}

export const stickCommand = (terminal: Terminal): Command =>
  new Command('stick')
    .description('name a stick for backups, which are then made by themselves; or list the sticks')
    .argument('[folder]', 'the top of the stick')
    .option('--name <name>', 'what you write on it: red')
    .option('--test <MB>', 'how much of it to test: megabytes, all, or none', '256')
    .option('--without-network', "leave out keys, list of devices and PINs of the camp's network")
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action((place: string | undefined, options: Options) => {
      const folder = dataFolder(options.data, terminal);
      if (place === undefined) return terminal.out(listed(folder));
      const target = resolve(place);
      const name = options.name?.trim() ?? readStick(target)?.name;
      if (name === undefined || name === '' || name.length > 40)
        throw new CommandError(
          'the stick has no name yet',
          target,
          'Give one of at most 40 characters, for example --name red, and write it on the stick.',
        );
      const most = bytesToTest(options.test);
      const stick = nameStick(target, { id: randomUUID(), name });
      if (most > 0) terminal.err('Testing ...\n');
      const tested = most > 0 ? testCapacity(target, most, Date.now() >>> 0) : null;
      const withoutNetwork = options.withoutNetwork === true;
      knowStick(folder, { ...stick, folder: target, tested, withoutNetwork });
      terminal.out(`Stick ${stick.name} is known to this book. ${testWords(tested)}\n`);
      terminal.out(networkWords(folder, target, withoutNetwork));
      terminal.out(
        'While the server runs it is written to by itself. Keep two, and one away from this tent.\n',
      );
    });

const bytesToTest = (text: string): number => {
  if (text === 'none') return 0;
  if (text === 'all') return Number.POSITIVE_INFINITY;
  const megabytes = Number(text);
  if (Number.isFinite(megabytes) && megabytes >= 1) return megabytes * 1024 * 1024;
  throw new CommandError(`"${text}" is no size`, '--test', 'Give megabytes, all, or none.');
};

const testWords = (tested: CapacityTest | null): string => {
  if (tested === null) return 'It was not tested.';
  const megabytes = Math.floor(tested.bytes / 1024 / 1024);
  return `${megabytes} MB were written and came back${
    tested.isPastCache
      ? ''
      : " (through this computer's memory: the stick itself can not be read past it here)"
  }.`;
};

/** What goes to the stick beside the campaigns, and what somebody who finds it could do with it. */
const networkWords = (folder: string, target: string, withoutNetwork: boolean): string => {
  if (withoutNetwork)
    return takeNetworkOff(target)
      ? "The camp network's keys that lay on it were deleted. A stick forgets badly: for certainty use another one.\n"
      : 'The camp network is left out.\n';
  const host = namedAuthority(folder)?.host;
  const name = host === undefined ? "the camp's name" : host;
  return `The camp network goes to it too. Whoever finds it could pose as ${name} to your tablets, and as no other site: keep it as you keep a key, or say --without-network.\n`;
};

const listed = (folder: string): string => {
  const sticks = knownSticks(folder);
  if (sticks.length === 0) return 'No stick has a name yet: firnbook stick FOLDER --name red\n';
  const done = verifiedBackups(folder);
  return sticks
    .map(({ id, name, folder: place, withoutNetwork }) => {
      const backups = done.filter(({ stick }) => stick === id);
      const lines = backups.map(
        ({ campaign, entries, madeAt, generation }) =>
          `  ${campaign}: ${entries} entries at ${madeAt}, generation ${generation}, read back\n`,
      );
      const copied = networkCopiedAt(place);
      const network =
        withoutNetwork === true
          ? '  without the camp network\n'
          : copied === null
            ? ''
            : `  the camp network at ${copied}, read back\n`;
      return `${name} (${place})\n${lines.length === 0 ? '  no campaign yet\n' : lines.join('')}${network}`;
    })
    .join('');
};
