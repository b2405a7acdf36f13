import {
  closeNetwork,
  defaultHttpsPort,
  defaultPort,
  hostNameOf,
  listInterfaces,
  namedAuthority,
  readNetwork,
  setAuthorityAside,
  writeNetwork,
} from '@firnbook/server';
import { Command } from 'commander';
import { runningServer } from '../camp.ts';
import { dataFolder } from '../data-folder.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Without this only this computer reaches the book. Name the interface that tablets come over, once, before departure:
the server then speaks https there, with a certificate of the camp's own, and lets paired devices in. Without a word
after it, it lists the interfaces and says what is open.

Example: firnbook network use wlan0 --name ceredin
Then:    firnbook pair
`;

const useExample = `
The name stands on the certificate and stays for the campaign; one word gets ".internal". Tablets are given this
computer's address, so let the router give it always the same one. Where the router answers for the name too, say
--name-known: then tablets are given the name, and a new address later does no harm.

Another name needs a new certificate (--new-authority), which every tablet has to install again.
`;

interface Folder {
  readonly data?: string;
}
interface Use extends Folder {
  readonly name?: string;
  readonly nameKnown?: boolean;
  readonly port?: string;
  readonly newAuthority?: boolean;
}

const dataOption = ['--data <folder>', 'data folder of the book'] as const;

export const networkCommand = (terminal: Terminal): Command => {
  const command = new Command('network')
    .description('open the book to the tablets on the camp network, or say how it is')
    .option(...dataOption)
    .addHelpText('after', example)
    .action((options: Folder) => terminal.out(told(dataFolder(options.data, terminal))));
  command
    .command('use')
    .description('let tablets come over this interface')
    .argument('<interface>', 'its name, as the list says: wlan0')
    .option('--name <name>', 'host name of this computer in camp: ceredin')
    .option('--name-known', 'the router answers for this name')
    .option('--port <number>', `port of https (${defaultHttpsPort})`)
    .option('--new-authority', 'make a new certificate; every tablet has to install it')
    .option(...dataOption)
    .addHelpText('after', useExample)
    .action((wanted: string, own: Use, { parent }: Command) =>
      use(wanted, { ...parent?.opts(), ...own }, terminal),
    );
  command
    .command('off')
    .description('let no tablet in any more; certificate and devices are kept')
    .option(...dataOption)
    .action(async (own: Folder, { parent }: Command) => {
      const folder = dataFolder(own.data ?? parent?.opts<Folder>().data, terminal);
      closeNetwork(folder);
      terminal.out(`Only this computer reaches the book. ${await whenItActs(folder)}\n`);
    });
  return command;
};

const use = async (wanted: string, options: Use, terminal: Terminal): Promise<void> => {
  const folder = dataFolder(options.data, terminal);
  const there = listInterfaces();
  if (!there.some(({ name }) => name === wanted))
    throw new CommandError(
      `there is no interface ${wanted} with an address`,
      'firnbook network use',
      there.length === 0
        ? 'Connect this computer to the camp network first.'
        : `There are ${namesOf(there)}.`,
    );
  const before = readNetwork(folder);
  const authority = namedAuthority(folder);
  const said = options.name ?? before?.name ?? authority?.host;
  const name = said === undefined ? null : hostNameOf(said);
  if (name === null)
    throw new CommandError(
      said === undefined ? 'the camp computer has no name yet' : `"${said}" is no host name`,
      '--name',
      'Give one word of letters, digits and dashes, for example --name ceredin.',
    );
  if (options.newAuthority) setAuthorityAside(folder, Date.now());
  else if (authority !== null && authority.host !== name)
    throw new CommandError(
      `the certificate that tablets installed is for ${authority.host}`,
      '--name',
      `Keep that name; or add --new-authority, and install the new certificate on every tablet.`,
    );
  writeNetwork(folder, {
    interface: wanted,
    name,
    isNameKnown: options.nameKnown ?? before?.isNameKnown ?? false,
    port: portOf(options.port, before?.port ?? defaultHttpsPort),
    installPort: before?.installPort ?? defaultPort,
  });
  terminal.out(
    `Tablets may come over ${wanted}, to ${name}. ${await whenItActs(folder)}\nThen: firnbook pair\n`,
  );
};

const portOf = (text: string | undefined, usual: number): number => {
  if (text === undefined) return usual;
  const port = Number(text);
  if (Number.isInteger(port) && port >= 1 && port <= 65535) return port;
  throw new CommandError(`"${text}" is no port`, '--port', 'Give a number from 1 to 65535.');
};

const whenItActs = async (folder: string): Promise<string> =>
  (await runningServer(folder)) === null
    ? 'The server does it at its next start.'
    : 'The server that runs does it within seconds.';

const told = (folder: string): string => {
  const settings = readNetwork(folder);
  const authority = namedAuthority(folder);
  const lines = listInterfaces().map(
    ({ name, addresses }) =>
      `  ${name}  ${addresses.join(', ')}${settings?.interface === name ? '  <- tablets come over this one' : ''}\n`,
  );
  const list = lines.length === 0 ? '  none has an address\n' : lines.join('');
  const open =
    settings === null
      ? 'Only this computer reaches the book. To let tablets in: firnbook network use INTERFACE --name NAME\n'
      : `Open over ${settings.interface} as ${settings.name}, https on port ${settings.port}.\n`;
  const certificate =
    authority === null
      ? ''
      : `Certificate of the camp: ${authority.host}, until ${authority.until.slice(0, 10)}, SHA-256\n  ${authority.fingerprint}\n`;
  return `Interfaces of this computer:\n${list}${open}${certificate}`;
};

const namesOf = (there: readonly { readonly name: string }[]): string =>
  there.map(({ name }) => name).join(', ');
