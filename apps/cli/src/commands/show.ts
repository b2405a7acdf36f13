import { fieldText, type ReadingView, sayEnglish, type ThingView } from '@firnbook/campaign';
import { Command } from 'commander';
import { existingDataFolder } from '../data-folder.ts';
import { openDesk } from '../desk.ts';
import { findCampaign } from '../find-in-book.ts';
import { thingCalled } from '../say-in-book.ts';
import type { Terminal } from '../terminal.ts';

interface Options {
  readonly campaign: string;
  readonly hole?: string;
  readonly data?: string;
  readonly json?: boolean;
}

/** Everything that was ever said about one thing. */
export const showCommand = (terminal: Terminal): Command =>
  new Command('show')
    .description('show a thing with every reading, who said it, and what was struck')
    .argument('<thing>', 'its name, like B-P034.2, or its id')
    .requiredOption('--campaign <name>', 'name or id of the campaign')
    .option('--hole <letter>', 'hole of that campaign, where it has several')
    .option('--data <folder>', 'data folder of the book')
    .option('--json', 'the same for programs')
    .action(async (said: string, options: Options) => {
      const desk = await openDesk(existingDataFolder(options.data, terminal));
      try {
        const opened = await findCampaign(desk, options.campaign);
        const thing = thingCalled(opened, options.hole, said);
        if (options.json) {
          terminal.out(`${JSON.stringify(thing, null, 2)}\n`);
          return;
        }
        const people = new Map(opened.book.view().people.map((one) => [one.id, one.name]));
        terminal.out(inWords(thing, (id) => people.get(id) ?? id));
      } finally {
        await desk.close();
      }
    });

function inWords(thing: ThingView, who: (id: string) => string): string {
  const aliases = thing.aliases.length === 0 ? '' : `, also ${thing.aliases.join(', ')}`;
  const lines = [
    `${thing.name || thing.kind} (${thing.kind})${aliases}`,
    `  id ${thing.id}, ${who(thing.by)}, ${thing.at}`,
  ];
  for (const reading of Object.values(thing.readings)) lines.push(...readingLines(thing, reading, who));
  if (thing.withdrawn !== null)
    lines.push(`  Withdrawn by ${who(thing.withdrawn.by)}, ${thing.withdrawn.at}: ${thing.withdrawn.reason}`);
  lines.push(`  From ${thing.entries.length === 1 ? 'entry' : 'entries'} ${thing.entries.join(', ')}`);
  return `${lines.join('\n')}\n`;
}

function readingLines(
  thing: ThingView,
  reading: ReadingView,
  who: (id: string) => string,
): readonly string[] {
  const label = sayEnglish(fieldText(thing.kind, reading.field));
  return [
    `  ${label}: ${reading.text} (${who(reading.by)}, ${reading.at})`,
    ...reading.against.map(
      (one) => `    or ${one.text} (${who(one.by)}, ${one.at}): a person has to settle it`,
    ),
    ...reading.struck.map(
      (one) =>
        `    struck: ${one.text} (${who(one.by)}, ${one.at})${one.reason === undefined ? '' : `, ${one.reason}`}`,
    ),
  ];
}
