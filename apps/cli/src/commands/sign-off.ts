import { allCountedTwice, depthVersion, sayEnglish } from '@firnbook/campaign';
import { writeVersion } from '@firnbook/exchange';
import { Command } from 'commander';
import { solvedHole } from '../book-depths.ts';
import { ofHole } from '../depth-source.ts';
import { CommandError } from '../refusal.ts';
import { type BookOptions, speak, withBookOptions } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';
import { versionCalled } from '../version-in-book.ts';

interface Options extends BookOptions {
  readonly note?: string;
}

const example = `
The version keeps depths, solver, assumptions, readings and the entries that say them, in one file beside the book.
It stays as it is whatever is corrected later; firnbook compare-depths says what has moved since, and why.

Example (the Ceredin Saddle is invented):
  firnbook sign-off v1 --campaign "Ceredin Saddle" --hole B --initials KM --note "for the cutting plan"
  firnbook compare-depths v1 --campaign "Ceredin Saddle" --hole B
`;

/** The present depths of a hole as a version that people may refer to. */
export const signOffCommand = (terminal: Terminal): Command =>
  withBookOptions(new Command('sign-off'))
    .description('sign off the solved depths of a hole, as they are now, under a name')
    .argument('<name>', 'what the version is called, like v1')
    .option('--note <text>', 'what it is for, what is open')
    .addHelpText('after', example)
    .action(async (name: string, options: Options) => {
      await speak(options, terminal, async ({ opened, hole, say, attach }) => {
        const campaign = opened.book.view();
        const own = hole(true);
        if (own === null) return;
        if (versionCalled(own, name) !== undefined)
          throw new CommandError(
            `hole ${own.letter} has a version "${name}" already`,
            '<name>',
            'A version stays as it was signed off: take another name.',
          );
        terminal.err(`Solving ${own.name} ...\n`);
        const solved = solvedHole(own, campaign);
        if (!solved.ok)
          throw new CommandError(solved.problem, `hole ${own.letter}`, 'Correct the reading in the book.');
        if (!solved.solution.converged)
          throw new CommandError(
            'the solution did not settle',
            `hole ${own.letter}`,
            'Look at the readings that firnbook depths names, correct them, and sign off then.',
          );
        for (const one of allCountedTwice(own)) terminal.err(`${sayEnglish(one)}\n`);
        const source = ofHole(own, campaign, solved.solution);
        const { readings, solution, entries, names } = source;
        const version = depthVersion(name, own.name, readings, solution, entries);
        const table = await attach(new TextEncoder().encode(writeVersion({ version, names })));
        const id = await say({
          do: 'log',
          kind: 'depth version',
          hole: own.id,
          readings: {
            name,
            solver: solution.solver,
            table,
            ...(options.note !== undefined && { note: options.note }),
          },
        });
        terminal.out(
          `Signed off: ${own.name} ${name}, ${solution.runs.length} runs, ${solution.pieces.length} pieces, by ${solution.solver}. SHA-256 ${table}, id ${id}\n`,
        );
      });
    });
