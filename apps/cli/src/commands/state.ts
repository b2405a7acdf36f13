import { countedTwice, sayEnglish } from '@firnbook/campaign';
import { fixed } from '@firnbook/exchange';
import { digest } from '@firnbook/journal';
import { Command } from 'commander';
import { solvedHole } from '../book-depths.ts';
import { existingDataFolder } from '../data-folder.ts';
import { type OpenBook, openDesk } from '../desk.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Example: firnbook state
  Ceredin Saddle (invented), 0190f3c2-...: 214 entries
    hole B (CER-B): 34 runs, 61 pieces, 2 soundings; core solved to 32.418 m ± 0.021 m; 1 conflict
      Two runs are called B-R003.
`;

/** What is in the book. */
export const stateCommand = (terminal: Terminal): Command =>
  new Command('state')
    .description('say what is in the book: campaigns, holes, runs, pieces, conflicts, solved depth')
    .option('--data <folder>', 'data folder of the book')
    .option('--json', 'the same for programs')
    .addHelpText('after', example)
    .action(async (options: { readonly data?: string; readonly json?: boolean }) => {
      const folder = existingDataFolder(options.data, terminal);
      const desk = await openDesk(folder);
      try {
        const states: CampaignState[] = [];
        for (const id of await desk.campaigns()) {
          const opened = await desk.open(id);
          if (opened.trouble !== null)
            terminal.err(`${id}: shown as the command line last had it. ${opened.trouble}\n`);
          states.push(stateOf(opened));
        }
        const where = desk.camp.address ?? folder;
        if (options.json) terminal.out(`${JSON.stringify({ where, campaigns: states }, null, 2)}\n`);
        else if (states.length === 0)
          terminal.out(`There is no campaign in ${where}. Begin one with: firnbook new.\n`);
        else terminal.out(states.map(inWords).join(''));
      } finally {
        await desk.close();
      }
    });

interface HoleState {
  readonly letter: string;
  readonly name: string;
  readonly runs: number;
  readonly pieces: number;
  readonly soundings: number;
  readonly withdrawn: number;
  readonly conflicts: readonly string[];
  readonly notUnderstood: number;
  readonly waiting: number;
  /** Solved bottom of the core, metres; null without pieces. */
  readonly coreBottom: { readonly value: number; readonly sd: number } | null;
  readonly findings: number;
  /** Why the depths could not be solved. */
  readonly unsolved: string | null;
}

interface CampaignState {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly entries: number;
  readonly digest: string;
  readonly people: readonly string[];
  readonly conflicts: readonly string[];
  readonly notUnderstood: number;
  readonly waiting: number;
  readonly holes: readonly HoleState[];
}

const stateOf = ({ campaign, replica, book }: OpenBook): CampaignState => {
  const view = book.view();
  return {
    id: campaign,
    name: view.name,
    invented: view.invented,
    entries: replica.ledger.size,
    digest: digest(replica.ledger),
    people: view.people.map((person) => person.name),
    conflicts: (view.conflicts ?? []).map((conflict) => sayEnglish(conflict.says)),
    notUnderstood: view.notUnderstood ?? 0,
    waiting: view.waiting ?? 0,
    holes: view.holes.map((hole) => {
      const runs = hole.runs.filter((run) => run.withdrawn === null);
      const pieces = runs.flatMap((run) => run.pieces).filter((piece) => piece.withdrawn === null);
      const all = [...hole.runs, ...hole.runs.flatMap((run) => run.pieces), ...hole.soundings];
      const solved = solvedHole(hole, view);
      return {
        letter: hole.letter,
        name: hole.name,
        runs: runs.length,
        pieces: pieces.length,
        soundings: hole.soundings.filter((one) => one.withdrawn === null).length,
        withdrawn: all.filter((one) => one.withdrawn !== null).length,
        conflicts: hole.conflicts.map((conflict) => {
          const twice = countedTwice(hole, conflict);
          return `${sayEnglish(conflict.says)}${twice === null ? '' : ` ${sayEnglish(twice)}`}`;
        }),
        notUnderstood: hole.notUnderstood,
        waiting: hole.waiting,
        coreBottom:
          solved.ok && solved.view.coreBottom !== null
            ? { value: solved.view.coreBottom.value, sd: solved.view.coreBottom.sd }
            : null,
        findings: solved.ok ? solved.view.findings.length : 0,
        unsolved: solved.ok ? null : solved.problem,
      };
    }),
  };
};

const many = (count: number, word: string): string => `${count} ${word}${count === 1 ? '' : 's'}`;

const inWords = (state: CampaignState): string => {
  const lines = [
    `${state.name || '(no name yet)'}${state.invented ? ' (invented)' : ''}, ${state.id}: ${state.entries} ${state.entries === 1 ? 'entry' : 'entries'}`,
    ...odd('  ', state),
  ];
  for (const hole of state.holes) {
    const depth =
      hole.coreBottom === null
        ? hole.unsolved === null
          ? 'no core yet'
          : `depths not solved: ${hole.unsolved}`
        : `core solved to ${fixed(hole.coreBottom.value, 3)} m \u00b1 ${fixed(hole.coreBottom.sd, 3)} m`;
    const withdrawn = hole.withdrawn === 0 ? '' : `; ${hole.withdrawn} withdrawn`;
    const findings = hole.findings === 0 ? '' : `; ${many(hole.findings, 'reading')} to look at`;
    lines.push(
      `  hole ${hole.letter}${hole.name === hole.letter ? '' : ` (${hole.name})`}: ${many(hole.runs, 'run')}, ${many(hole.pieces, 'piece')}, ${many(hole.soundings, 'sounding')}; ${depth}${findings}${withdrawn}`,
      ...odd('    ', hole),
    );
  }
  return `${lines.join('\n')}\n`;
};

const odd = (
  indent: string,
  of: { readonly conflicts: readonly string[]; readonly notUnderstood: number; readonly waiting: number },
): readonly string[] => [
  ...of.conflicts.map((says) => `${indent}Conflict: ${says}`),
  ...(of.notUnderstood === 0 ? [] : [`${indent}${of.notUnderstood} entries not understood by this version`]),
  ...(of.waiting === 0 ? [] : [`${indent}${of.waiting} entries wait for one that has not arrived`]),
];
