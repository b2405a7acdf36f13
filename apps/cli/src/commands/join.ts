import { Command } from 'commander';
import { type BookOptions, readingsOf, speak, withBookOptions } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Where the two differ, say which reading is right (the Ceredin Saddle is invented):
  firnbook join 0190f3c2-... 0190f3c5-... to="30.61 m" --reason "the same run, logged twice" --campaign "Ceredin Saddle" --initials KM
`;

/** Two things turn out to be one. */
export const joinCommand = (terminal: Terminal): Command =>
  withBookOptions(new Command('join'))
    .description('say that two things are one: the second becomes part of the first')
    .argument('<into>', 'name or id of the one that stays')
    .argument('<from>', 'name or id of the one that becomes part of it')
    .argument('[readings...]', 'field=value where the two differ')
    .requiredOption('--reason <words>', 'why')
    .addHelpText('after', example)
    .action(
      async (
        into: string,
        from: string,
        pairs: readonly string[],
        options: BookOptions & { readonly reason: string },
      ) => {
        const readings = readingsOf(pairs);
        await speak(options, terminal, async ({ find, say }) => {
          const [one, other] = [find(into), find(from)];
          await say({ do: 'join', into: one.id, from: other.id, readings, reason: options.reason });
          terminal.out(`${other.name || from} is now part of ${one.name || into}.\n`);
        });
      },
    );
