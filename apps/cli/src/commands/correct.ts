import { Command } from 'commander';
import { type BookOptions, readingsOf, speak, withBookOptions } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Example (the Ceredin Saddle is invented):
  firnbook correct B-P034.2 length="54,6 cm" --reason "measured again" --campaign "Ceredin Saddle" --initials KM

The old reading stays in the book, struck through. It also settles two readings that contradict each other.
`;

/** A new reading beside the old one. */
export const correctCommand = (terminal: Terminal): Command =>
  withBookOptions(new Command('correct'))
    .description('correct a reading, with the reason; the old one stays visible')
    .argument('<thing>', 'its name, like B-P034.2, or its id')
    .argument('<readings...>', 'field=value, the value as read, with its unit')
    .requiredOption('--reason <words>', 'why')
    .addHelpText('after', example)
    .action(
      async (said: string, pairs: readonly string[], options: BookOptions & { readonly reason: string }) => {
        const readings = readingsOf(pairs);
        await speak(options, terminal, async ({ find, say }) => {
          const thing = find(said);
          await say({ do: 'correct', thing: thing.id, readings, reason: options.reason });
          terminal.out(`Corrected ${thing.name || said}.\n`);
        });
      },
    );
