import {
  type Context,
  findNamed,
  type HoleView,
  kindOf,
  kinds,
  type Readings,
  sayEnglish,
  type ThingView,
  type Command as Wish,
} from '@firnbook/campaign';
import { hashBytes } from '@firnbook/journal';
import type { Command } from 'commander';
import { existingDataFolder } from './data-folder.ts';
import { contextOf, type OpenBook, openDesk } from './desk.ts';
import { findCampaign, findHoleOf } from './find-in-book.ts';
import { CommandError } from './refusal.ts';
import type { Terminal } from './terminal.ts';

/** Options of every command that says something in a book. */
export interface BookOptions {
  readonly campaign: string;
  readonly hole?: string;
  readonly initials: string;
  readonly at?: string;
  readonly data?: string;
}

export const withBookOptions = (command: Command): Command =>
  command
    .requiredOption('--campaign <name>', 'name or id of the campaign')
    .option('--hole <letter>', 'hole of that campaign, where it has several')
    .requiredOption('--initials <initials>', 'of the person who says so')
    .option('--at <time>', 'when it was seen, ISO 8601 with offset; now where it is left out')
    .option('--data <folder>', 'data folder of the book');

/** A book open for one command, and who speaks. */
export interface Speaking {
  readonly opened: OpenBook;
  readonly context: Context;
  /** The hole that is meant; null for what belongs to the campaign. */
  readonly hole: (needed: boolean) => HoleView | null;
  /** Writes it, prints what looks odd, and gives the id of the first entry written. */
  readonly say: (wish: Wish) => Promise<string>;
  readonly find: (said: string) => ThingView;
  /** Keeps a file beside the book and gives its SHA-256; resolves when the camp computer has it on its disk. */
  readonly attach: (bytes: Uint8Array) => Promise<string>;
}

/** Opens the book, does the work, and closes it whatever happens. */
export const speak = async (
  options: BookOptions,
  terminal: Terminal,
  work: (speaking: Speaking) => Promise<void>,
): Promise<void> => {
  const desk = await openDesk(existingDataFolder(options.data, terminal));
  try {
    const opened = await findCampaign(desk, options.campaign);
    const { book } = opened;
    const by = personOf(opened, options.initials);
    const context = {
      ...contextOf(by),
      ...(options.at === undefined ? {} : { observedAt: timeOf(options.at) }),
    };
    const hole = (needed: boolean): HoleView | null => {
      const { holes } = book.view();
      if (!needed && options.hole === undefined) return null;
      return findHoleOf(holes, options.hole, options.campaign);
    };
    await work({
      opened,
      context,
      hole,
      find: (said) => thingCalled(opened, options.hole, said),
      attach: async (bytes) => {
        const sha256 = hashBytes(bytes);
        await desk.camp.attach(opened.campaign, sha256, bytes);
        return sha256;
      },
      say: async (wish) => {
        const decision = book.decide(wish, context);
        if (!decision.ok) {
          const [first] = decision.refusals;
          throw new CommandError(
            decision.refusals.map(({ what }) => sayEnglish(what).replace(/\.$/, '')).join('; '),
            first?.field ?? 'the command',
            [...new Set(decision.refusals.map(({ mend }) => sayEnglish(mend)))].join(' '),
          );
        }
        await opened.write(decision.drafts);
        if (opened.unsigned !== null) terminal.err(`This is not signed. ${opened.unsigned}\n`);
        for (const doubt of decision.doubts) {
          const likely = doubt.likely.map(({ label }) => sayEnglish(label));
          terminal.out(
            `Question: ${sayEnglish(doubt.what)}${likely.length === 0 ? '' : ` Likely: ${likely.join('; ')}.`}\n`,
          );
        }
        return decision.drafts[0]!.id;
      },
    });
  } finally {
    await desk.close();
  }
};

/** ["to=87,5 cm"] -> { to: '87,5 cm' } */
export const readingsOf = (pairs: readonly string[]): Readings => {
  const readings: Record<string, string> = {};
  for (const pair of pairs) {
    const at = pair.indexOf('=');
    if (at < 1)
      throw new CommandError(
        `"${pair}" is no reading`,
        'readings',
        'Write each as field=value, like to="87,5 cm".',
      );
    const name = pair.slice(0, at).trim();
    if (Object.hasOwn(readings, name))
      throw new CommandError(`"${name}" is said twice`, 'readings', 'Say each field once.');
    readings[name] = pair.slice(at + 1);
  }
  return readings;
};

export function personOf({ book }: OpenBook, initials: string): string {
  const { people } = book.view();
  const found = people.find(
    (one) => one.withdrawn === null && one.name.toLowerCase() === initials.toLowerCase(),
  );
  if (found !== undefined) return found.id;
  throw new CommandError(
    `nobody in this campaign has the initials "${initials}"`,
    '--initials',
    `There are: ${people.map((one) => one.name).join(', ') || 'none'}. Add a person with: firnbook log person initials=${initials} --initials <yours>.`,
  );
}

function timeOf(text: string): string {
  if (
    /^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)$/.test(text) &&
    Number.isFinite(Date.parse(text))
  )
    return text;
  throw new CommandError(
    `"${text}" is no time with its offset`,
    '--at',
    'Write it like 2026-06-14T09:30:00+05:45.',
  );
}

/** By id or name: a name's first letter is its hole's. */
export function thingCalled(
  { book, campaign }: OpenBook,
  letter: string | undefined,
  said: string,
): ThingView {
  const view = book.view();
  const wanted = letter ?? /^([a-z])-/i.exec(said)?.[1];
  const holes = wanted === undefined ? view.holes : [findHoleOf(view.holes, wanted, campaign)];
  const all = kinds.map(({ kind }) => kind);
  for (const hole of [...holes, null]) {
    const found = findNamed(
      view,
      hole,
      hole === null ? all.filter((kind) => kindOf(kind)?.under === 'campaign') : all,
      said,
    );
    if (found !== undefined) return found;
  }
  throw new CommandError(
    `there is nothing called "${said}"`,
    'the thing',
    'Give its name, like B-R034 or B-P034.2, or its id as firnbook show prints it.',
  );
}
