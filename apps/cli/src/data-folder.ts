import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { CommandError } from './refusal.ts';
import type { Terminal } from './terminal.ts';

/** Where the book lies: --data, else FIRNBOOK_DATA, else ./firnbook-data. */
export const dataFolder = (given: string | undefined, terminal: Terminal): string =>
  resolve(given ?? (terminal.env.FIRNBOOK_DATA || 'firnbook-data'));

/** The same, for commands that make no sense without one. */
export const existingDataFolder = (given: string | undefined, terminal: Terminal): string => {
  const folder = dataFolder(given, terminal);
  if (existsSync(folder)) return folder;
  throw new CommandError(
    'there is no data folder',
    folder,
    'Name it with --data, or make a book with: firnbook start, or firnbook new.',
  );
};
