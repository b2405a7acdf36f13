import { Command } from 'commander';
import { type BookOptions, readingsOf, speak, withBookOptions } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Example (the Ceredin Saddle is invented):
  firnbook add B-P034.2 mass="3412 g" tare="412 g" diameterTop="98,3 mm" --campaign "Ceredin Saddle" --initials KM
`;

/** First readings of a thing that is there already. */
export const addCommand = (terminal: Terminal): Command =>
  withBookOptions(new Command('add'))
    .description('add readings that a thing has none of yet, like the mass of a piece')
    .argument('<thing>', 'its name, like B-P034.2, or its id')
    .argument('<readings...>', 'field=value, the value as read, with its unit')
    .addHelpText('after', example)
    .action(async (said: string, pairs: readonly string[], options: BookOptions) => {
      const readings = readingsOf(pairs);
      await speak(options, terminal, async ({ find, say }) => {
        const thing = find(said);
        await say({ do: 'add', thing: thing.id, readings });
        terminal.out(`Added to ${thing.name || said}.\n`);
      });
    });
