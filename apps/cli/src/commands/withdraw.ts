import { Command } from 'commander';
import { type BookOptions, speak, withBookOptions } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';

type Options = BookOptions & { readonly reason: string };

/** A thing that no longer counts; it stays in the book. */
export const withdrawCommand = (terminal: Terminal): Command =>
  withBookOptions(new Command('withdraw'))
    .description('say that a thing no longer counts; it stays visible, struck through')
    .argument('<thing>', 'its name, like B-P034.2, or its id')
    .requiredOption('--reason <words>', 'why')
    .action(async (said: string, options: Options) => {
      await speak(options, terminal, async ({ find, say }) => {
        const thing = find(said);
        await say({ do: 'withdraw', thing: thing.id, reason: options.reason });
        terminal.out(
          `${thing.name || said} no longer counts. Bring it back with: firnbook restore ${thing.id}\n`,
        );
      });
    });

/** What was withdrawn counts again. */
export const restoreCommand = (terminal: Terminal): Command =>
  withBookOptions(new Command('restore'))
    .description('let a thing that was withdrawn count again')
    .argument('<thing>', 'its id; withdrawn things are not found by name')
    .requiredOption('--reason <words>', 'why')
    .action(async (said: string, options: Options) => {
      await speak(options, terminal, async ({ find, say }) => {
        const thing = find(said);
        await say({ do: 'restore', thing: thing.id, reason: options.reason });
        terminal.out(`${thing.name || said} counts again.\n`);
      });
    });
