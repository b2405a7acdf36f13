import {
  asksPin,
  type CampaignView,
  type ConflictView,
  isCalled,
  lettingStand,
  type Right,
  rightsOf,
  sayEnglish,
  saying,
  standing,
} from '@firnbook/campaign';
import { Command } from 'commander';
import { existingDataFolder } from '../data-folder.ts';
import { openDesk } from '../desk.ts';
import { findCampaign } from '../find-in-book.ts';
import { CommandError } from '../refusal.ts';
import { type BookOptions, personOf, type Speaking, speak, withBookOptions } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';
import { onlyCampaign, pinResetCommand, pinsAt } from './people-pin.ts';

const example = `
A campaign in which nothing is said of rights lets everybody do everything. By name, everybody logs until it is taken
away; whoever makes it so keeps all three rights. What is written without a right is kept, counts, and is shown as a
conflict until somebody who may sign off lets it stand.

Example (the Ceredin Saddle is invented):
  firnbook people --campaign "Ceredin Saddle"
  firnbook people by-name --campaign "Ceredin Saddle" --initials KM
  firnbook people give HN sign-off --campaign "Ceredin Saddle" --initials KM
`;

const words: Readonly<Record<string, Right>> = { log: 'log', plan: 'plan', 'sign-off': 'signOff' };

interface Where {
  readonly campaign?: string;
  readonly data?: string;
  readonly json?: boolean;
}
type Options = BookOptions & { readonly reason: string };

/** Who may do what: the list, and what changes it. */
export const peopleCommand = (terminal: Terminal): Command => {
  const command = new Command('people')
    .description('say who may log, change plans and sign off, or change it')
    .addHelpText('after', example);
  command
    .command('list', { isDefault: true })
    .description('say who may do what (the same as firnbook people alone)')
    .option('--campaign <name>', 'name or id of the campaign, where there are several')
    .option('--data <folder>', 'data folder of the book')
    .option('--json', 'the same for programs')
    .action((options: Where) => list(options, terminal));
  const said = (name: string, description: string): Command =>
    withBookOptions(command.command(name).description(description));
  for (const [name, word] of [
    ['by-name', 'by name'],
    ['everybody', 'everybody'],
  ] as const)
    reasoned(
      said(name, name === 'by-name' ? 'rights are given by name' : 'everybody may do everything'),
    ).action((options: Options) =>
      speak(options, terminal, async (speaking) => {
        await sayOfCampaign(speaking, 'rights', word, options.reason);
        terminal.out(told(speaking.opened.book.view()));
      }),
    );
  reasoned(
    said('pin', 'whether people are asked for a PIN').argument('<word>', 'asked, or not-asked'),
  ).action((word: string, options: Options) =>
    speak(options, terminal, async (speaking) => {
      await sayOfCampaign(speaking, 'pin', word.replace('-', ' '), options.reason);
      terminal.out(told(speaking.opened.book.view()));
    }),
  );
  for (const [name, word] of [
    ['give', 'yes'],
    ['take', 'no'],
  ] as const)
    reasoned(
      said(name, name === 'give' ? 'give a person a right' : 'take a right away from a person')
        .argument('<initials>', 'of the person')
        .argument('<right>', 'log, plan or sign-off'),
    ).action((initials: string, right: string, options: Options) =>
      speak(options, terminal, async ({ opened, say }) => {
        const view = opened.book.view();
        const person = view.people.find((one) => isCalled(one, personOf(opened, initials)))!;
        await say(saying(person, rightCalled(right), word, options.reason));
        terminal.out(told(opened.book.view()));
      }),
    );
  said('let-stand', 'let stand what a person wrote without the right to it')
    .argument('<initials>', 'of the person who wrote it')
    .action((initials: string, options: BookOptions) =>
      speak(options, terminal, async ({ opened, say }) => {
        const person = personOf(opened, initials);
        const found = used(opened.book.view()).filter((one) => one.used.person === person);
        if (found.length === 0)
          throw new CommandError(
            `${initials} wrote nothing without the right to it`,
            'people let-stand',
            'firnbook people lists what waits.',
          );
        for (const one of found) for (const wish of lettingStand(one.used)) await say(wish);
        const count = found.reduce((sum, one) => sum + one.used.entries.length, 0);
        terminal.out(`${count} ${count === 1 ? 'entry' : 'entries'} of ${initials} let stand.\n`);
      }),
    );
  command.addCommand(pinResetCommand(terminal));
  return command;
};

/** An old word stays beside the new one, with this. */
const reasoned = (command: Command): Command =>
  command.option('--reason <words>', 'why', 'changed by firnbook people');

async function list(options: Where, terminal: Terminal): Promise<void> {
  const folder = existingDataFolder(options.data, terminal);
  const desk = await openDesk(folder);
  try {
    const { campaign, book } = await findCampaign(desk, options.campaign ?? (await onlyCampaign(desk)));
    const view = book.view();
    const pins = asksPin(view) ? await pinsAt(desk, folder).list(campaign) : null;
    if (!options.json) return terminal.out(told(view, pins));
    const people = standing(view.people).map((person) => ({
      initials: person.name,
      ...rightsOf(view, person.id),
      ...(pins === null ? {} : { pin: pins.has(person.id) }),
    }));
    const rights = view.rights?.byName ? 'by name' : 'everybody';
    const conflicts = used(view).map(({ says }) => sayEnglish(says));
    terminal.out(`${JSON.stringify({ rights, pin: asksPin(view), people, conflicts }, null, 2)}\n`);
  } finally {
    await desk.close();
  }
}

/** @param pins ids of the people who have one; null where none is asked, or nobody has looked */
function told(view: CampaignView, pins: ReadonlySet<string> | null = null): string {
  const isByName = view.rights?.byName ?? false;
  const lines = [
    `${view.name}: ${isByName ? 'rights are by name' : 'everybody may do everything'}; a PIN is ${asksPin(view) ? 'asked' : 'not asked'}.`,
    ...standing(view.people).map((person) => {
      const has = rightsOf(view, person.id);
      const may = Object.keys(words).filter((word) => has[words[word]!]);
      const pin = pins === null ? '' : pins.has(person.id) ? '; has a PIN' : '; has no PIN yet';
      return `  ${person.name}: ${may.join(', ') || 'nothing'}${pin}`;
    }),
    ...used(view).map(({ says }) => `  Conflict: ${sayEnglish(says)}`),
  ];
  return `${lines.join('\n')}\n`;
}

type Used = ConflictView & { readonly used: NonNullable<ConflictView['used']> };

const used = (view: CampaignView): readonly Used[] =>
  [...(view.conflicts ?? []), ...view.holes.flatMap((hole) => hole.conflicts)].filter(
    (one): one is Used => one.used !== undefined,
  );

async function sayOfCampaign(speaking: Speaking, field: string, word: string, reason: string): Promise<void> {
  const { opened: campaign } = speaking.opened.book.view();
  if (!campaign)
    throw new CommandError('the campaign has not arrived here', '--campaign', 'Run firnbook state.');
  await speaking.say(saying(campaign, field, word, reason));
}

function rightCalled(word: string): Right {
  const right = Object.hasOwn(words, word.toLowerCase()) ? words[word.toLowerCase()] : undefined;
  if (right !== undefined) return right;
  throw new CommandError(`"${word}" is no right`, '<right>', `Say one of: ${Object.keys(words).join(', ')}.`);
}
