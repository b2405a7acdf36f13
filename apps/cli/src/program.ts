import { createRequire } from 'node:module';
import { Command, CommanderError } from 'commander';
import { addCommand } from './commands/add.ts';
import { backupCommand } from './commands/backup.ts';
import { bringCommand } from './commands/bring.ts';
import { calcCommand } from './commands/calc.ts';
import { carryCommand } from './commands/carry.ts';
import { closureCommand } from './commands/closure.ts';
import { compareDepthsCommand } from './commands/compare-depths.ts';
import { correctCommand } from './commands/correct.ts';
import { densityCommand } from './commands/density.ts';
import { depthsCommand } from './commands/depths.ts';
import { devicesCommand } from './commands/devices.ts';
import { firnCommand } from './commands/firn.ts';
import { importCommand } from './commands/import.ts';
import { joinCommand } from './commands/join.ts';
import { kindsCommand } from './commands/kinds.ts';
import { logCommand } from './commands/log.ts';
import { networkCommand } from './commands/network.ts';
import { newCommand } from './commands/new.ts';
import { pairCommand } from './commands/pair.ts';
import { peopleCommand } from './commands/people.ts';
import { recoverCommand } from './commands/recover.ts';
import { scalesCommand } from './commands/scales.ts';
import { showCommand } from './commands/show.ts';
import { signOffCommand } from './commands/sign-off.ts';
import { splicesCommand } from './commands/splices.ts';
import { startCommand } from './commands/start.ts';
import { stateCommand } from './commands/state.ts';
import { stickCommand } from './commands/stick.ts';
import { verifyCommand } from './commands/verify.ts';
import { restoreCommand, withdrawCommand } from './commands/withdraw.ts';
import { complaintOf } from './refusal.ts';
import type { End, Terminal } from './terminal.ts';

const { version } = createRequire(import.meta.url)('../package.json') as { version: string };

const afterHelp = `
Exit codes:
  0  done (depths, density and closure: also when they found something)
  1  verify found damage; bring found a torn file, or lines that it refused
  2  not done: the command, a file or the data folder cannot be used; the complaint says what, where, and what to do
Results go to stdout, progress and complaints to stderr.

The data folder is --data, else the variable FIRNBOOK_DATA, else ./firnbook-data.
`;

/** Runs one command line. @returns the exit code */
export const runProgram = async (words: readonly string[], terminal: Terminal): Promise<number> => {
  let code = 0;
  const end: End = (value) => {
    code = value;
  };
  const program = new Command('firnbook')
    .description('The campaign book for ice coring: from the drill head to the published number.')
    .version(version)
    .addHelpText('after', afterHelp);
  const commands = [
    startCommand,
    networkCommand,
    pairCommand,
    devicesCommand,
    newCommand,
    peopleCommand,
    stateCommand,
    kindsCommand,
    logCommand,
    addCommand,
    correctCommand,
    withdrawCommand,
    restoreCommand,
    joinCommand,
    showCommand,
    importCommand,
    depthsCommand,
    scalesCommand,
    signOffCommand,
    compareDepthsCommand,
    splicesCommand,
    densityCommand,
    firnCommand,
    calcCommand,
    closureCommand,
    backupCommand,
    stickCommand,
    recoverCommand,
    carryCommand,
    bringCommand,
    verifyCommand,
  ];
  for (const command of commands) program.addCommand(command(terminal, end));
  const within = program.commands.flatMap(({ commands: parts }) => parts);
  for (const one of [program, ...program.commands, ...within])
    one
      .exitOverride()
      .showSuggestionAfterError(true)
      .showHelpAfterError(`(firnbook ${pathOf(one)}--help lists what there is)`)
      .configureOutput({ writeOut: terminal.out, writeErr: terminal.err });
  try {
    await program.parseAsync(words, { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    const complaint = complaintOf(error);
    if (complaint === null) {
      terminal.err(
        `This is a fault of firnbook itself, please report it:\n${(error as Error)?.stack ?? error}\n`,
      );
      return 2;
    }
    terminal.err(`${complaint}\n`);
    return 2;
  }
  return code;
};

/** "network use " of that command; nothing of the program itself. */
const pathOf = (command: Command): string =>
  command.parent === null ? '' : `${pathOf(command.parent)}${command.name()} `;
