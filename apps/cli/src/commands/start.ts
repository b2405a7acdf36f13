import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { defaultPort, type Server, startServer } from '@firnbook/server';
import { isTrouble } from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { runningServer } from '../camp.ts';
import { dataFolder } from '../data-folder.ts';
import { fillWithDemo } from '../fill-with-demo.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

interface Options {
  readonly data?: string;
  readonly port: string;
  readonly open: boolean;
}

const webFolder = fileURLToPath(new URL('../../../web/dist', import.meta.url));

const example = `
An empty data folder gets the invented Ceredin Saddle campaign to try things on. Ctrl-C stops cleanly. Started again
on the same folder while it runs, it says where.

Only this computer reaches the book. In camp, so that tablets reach it: firnbook network use, then firnbook pair.

Example: firnbook start --data ./firnbook-data --port 7411
  Firnbook is open at http://127.0.0.1:7411
`;

export const startCommand = (terminal: Terminal): Command =>
  new Command('start')
    .description("start the camp computer's server and open the book")
    .option('--data <folder>', 'data folder of the book')
    .option('--port <number>', 'port to listen on; 0 takes any free one', String(defaultPort))
    .option('--no-open', 'open no browser')
    .addHelpText('after', example)
    .action(async (options: Options) => {
      const port = Number(options.port);
      if (!Number.isInteger(port) || port < 0 || port > 65535)
        throw new CommandError(`"${options.port}" is no port`, '--port', 'Give a number from 0 to 65535.');
      const folder = dataFolder(options.data, terminal);
      const running = await runningServer(folder);
      if (running !== null) {
        terminal.out(`Firnbook already runs on this data folder, at ${running}\n`);
        if (options.open) openBrowser(running, terminal);
        return;
      }
      const filled = await fillWithDemo(folder);
      if (filled !== null)
        terminal.out(
          `The data folder was empty: it now holds the invented Ceredin Saddle, ${filled} entries.\n`,
        );
      const server = await begin(folder, port, terminal);
      terminal.out(`Firnbook is open at ${server.address}\nData: ${folder}\nCtrl-C stops it.\n`);
      if (options.open) openBrowser(server.address, terminal);
      await stopped();
      terminal.out('\nStopping ...\n');
      await server.close();
      terminal.out('Stopped. Everything is on the disk.\n');
    });

const begin = async (folder: string, port: number, terminal: Terminal): Promise<Server> => {
  try {
    return await startServer({
      dataFolder: folder,
      webFolder,
      port,
      log: (line) => terminal.err(`${line}\n`),
    });
  } catch (error) {
    // a port that is taken: the server says it in words of its own
    if (isTrouble(error) || !(error instanceof Error) || 'code' in error) throw error;
    const [what = error.message, ...mend] = error.message.split('. ');
    throw new CommandError(what, 'firnbook start', mend.join('. '));
  }
};

/** Until somebody stops it: Ctrl-C, the terminal closes, or the computer shuts down. */
const stopped = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => resolve());
  });

/** Only where a person sits in front of a screen; a browser that can't be opened is no trouble. */
const openBrowser = (address: string, terminal: Terminal): void => {
  const { platform } = process;
  const hasScreen =
    platform === 'darwin' ||
    platform === 'win32' ||
    Boolean(terminal.env.DISPLAY || terminal.env.WAYLAND_DISPLAY);
  if (!terminal.isPerson || !hasScreen) return;
  const [program, ...words] =
    platform === 'darwin'
      ? ['open', address]
      : platform === 'win32'
        ? ['cmd', '/c', 'start', '', address]
        : ['xdg-open', address];
  const child = spawn(program!, words, { stdio: 'ignore', detached: true });
  child.on('error', () => undefined);
  child.unref();
};
