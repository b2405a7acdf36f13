import { type Context, type Decision, sayEnglish, type Command as Wish } from '@firnbook/campaign';
import { newId } from '@firnbook/journal';
import { Command } from 'commander';
import { source } from '../camp.ts';
import { dataFolder } from '../data-folder.ts';
import { contextOf, type OpenBook, openDesk } from '../desk.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

interface Options {
  readonly hole: string;
  readonly core?: string;
  readonly zero: string;
  readonly initials: string;
  readonly person?: string;
  readonly invented?: boolean;
  readonly data?: string;
}

const example = `
Example (the Ceredin Saddle is invented):
  firnbook new "Ceredin Saddle" --hole B --core CER-B --zero "snow surface" --initials KM

The campaign is then on the camp computer; screens of a running server show it at once.
`;

export const newCommand = (terminal: Terminal): Command =>
  new Command('new')
    .description('begin a campaign with one hole and its zero')
    .argument('<name>', 'name of the campaign')
    .requiredOption('--hole <letter>', 'letter of the hole, A to Z')
    .requiredOption('--zero <surface>', 'the surface that depths count from, in words')
    .requiredOption('--initials <initials>', 'of the person who begins the book')
    .option('--person <name>', 'name of that person')
    .option('--core <name>', 'name of the core from this hole')
    .option('--invented', 'say on every screen that this campaign is made up')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (name: string, options: Options) => {
      const letter = options.hole.toUpperCase();
      if (!/^[A-Z]$/.test(letter))
        throw new CommandError(
          `"${options.hole}" is no letter of a hole`,
          '--hole',
          'Give one letter, A to Z.',
        );
      const folder = dataFolder(options.data, terminal);
      const desk = await openDesk(folder);
      try {
        const opened = await desk.open(newId(source));
        const by = await openCampaign(opened, name, options);
        const context = contextOf(by);
        const hole = await take(opened, context, {
          do: 'log',
          kind: 'hole',
          readings: { letter, ...(options.core !== undefined && { core: options.core }) },
        });
        await take(opened, context, { do: 'log', kind: 'zero', hole, readings: { surface: options.zero } });
        const device = { device: opened.replica.device, name: 'command line' };
        await take(opened, context, { do: 'log', kind: 'device', readings: device });
        const where = desk.camp.address ?? folder;
        terminal.out(
          `Campaign "${name}" is open with hole ${letter}: ${opened.replica.ledger.size} entries in ${where}.\nIts id: ${opened.campaign}\n`,
        );
        if (opened.unsigned !== null) terminal.err(`This is not signed. ${opened.unsigned}\n`);
      } finally {
        await desk.close();
      }
    });

/** @returns id of the person who begins */
const openCampaign = async (opened: OpenBook, name: string, options: Options): Promise<string> => {
  const { initials, person, invented } = options;
  await take(opened, contextOf(''), {
    do: 'open campaign',
    readings: { name, ...(invented && { invented: 'yes' }) },
    crew: [{ initials, ...(person !== undefined && { name: person }) }],
  });
  return opened.book.view().people[0]!.id;
};

/** @returns id of the last thing written */
const take = async (opened: OpenBook, context: Context, wish: Wish): Promise<string> => {
  const decision: Decision = opened.book.decide(wish, context);
  if (!decision.ok) {
    const first = decision.refusals[0]!;
    throw new CommandError(
      sayEnglish(first.what).replace(/\.$/, ''),
      first.field ?? 'firnbook new',
      decision.refusals.map(({ mend }) => sayEnglish(mend)).join(' '),
    );
  }
  await opened.write(decision.drafts);
  return decision.drafts.at(-1)!.id;
};
