import { kindOf, kinds } from '@firnbook/campaign';
import { Command } from 'commander';
import { CommandError } from '../refusal.ts';
import { type BookOptions, readingsOf, speak, withBookOptions } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Examples (the Ceredin Saddle is invented):
  firnbook log run number=35 from="30.02 m" to="30.61 m" recovered=core --campaign "Ceredin Saddle" --hole B --initials KM
  firnbook log piece run=35 number=1 length="54,6 cm" topBreak=fits --campaign "Ceredin Saddle" --hole B --initials KM
  firnbook log weather temperature="-14 °C" wind="6 m/s" sky=clear --campaign "Ceredin Saddle" --initials KM

The kinds and their fields: firnbook kinds, firnbook kinds run
`;

/** A new thing of any kind. */
export const logCommand = (terminal: Terminal): Command =>
  withBookOptions(new Command('log'))
    .description('log a new thing: a run, a piece, a sounding, the weather ...')
    .argument('<kind>', 'kind of thing, as firnbook kinds lists them')
    .argument('[readings...]', 'field=value, the value as read, with its unit')
    .addHelpText('after', example)
    .action(async (word: string, pairs: readonly string[], options: BookOptions) => {
      const kind = kindOf(word);
      if (kind === undefined)
        throw new CommandError(
          `"${word}" is no kind of thing`,
          '<kind>',
          `Use one of: ${kinds
            .slice(1)
            .map((one) => one.kind)
            .join(', ')}.`,
        );
      const readings = readingsOf(pairs);
      await speak(options, terminal, async ({ hole, say }) => {
        const under = hole(kind.under === 'hole' && kind.kind !== 'hole');
        const id = await say({
          do: 'log',
          kind: kind.kind,
          readings,
          ...(under === null ? {} : { hole: under.id }),
        });
        terminal.out(`Logged, id ${id}\n`);
      });
    });
