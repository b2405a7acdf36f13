import { type CampaignView, findThing, splicesOf, standing, type ThingView } from '@firnbook/campaign';
import { type DepthWithError, type Joined, joinRecords, type Splice } from '@firnbook/science/depth-scales';
import { Command } from 'commander';
import { existingDataFolder } from '../data-folder.ts';
import { openDesk } from '../desk.ts';
import { findCampaign, findHoleOf } from '../find-in-book.ts';
import type { Terminal } from '../terminal.ts';

interface Options {
  readonly campaign: string;
  readonly reference?: string;
  readonly data?: string;
}

const example = `
A splice says where the depths of one hole, pit or hand-augered top lie on those of another:
  firnbook log splice of=CER-B on="pit 1" offset="-12 cm" sd="3 cm" method=levelled --campaign "Ceredin Saddle" --initials KM
Splices that go round in a circle must come back to where they began; what is left is the misclosure.
`;

/** How the campaign's records are joined, on the depths of one of them. */
export const splicesCommand = (terminal: Terminal): Command =>
  new Command('splices')
    .description('show how holes, pits and hand-augered tops are joined, and whether it closes')
    .requiredOption('--campaign <name>', 'name or id of the campaign')
    .option('--reference <hole>', 'hole on whose depths the others are put; the first one joined otherwise')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (options: Options) => {
      const desk = await openDesk(existingDataFolder(options.data, terminal));
      try {
        const { book, trouble } = await findCampaign(desk, options.campaign);
        if (trouble !== null) terminal.err(`As the command line last had it. ${trouble}\n`);
        const view = book.view();
        const reference =
          options.reference === undefined
            ? undefined
            : findHoleOf(view.holes, options.reference, options.campaign).id;
        terminal.out(inWords(view, reference));
      } finally {
        await desk.close();
      }
    });

function inWords(campaign: CampaignView, wanted: string | undefined): string {
  const splices = splicesOf(campaign);
  const records = [
    ...campaign.holes.filter(({ withdrawn }) => withdrawn === null),
    ...standing(campaign.others.pit),
    ...standing(campaign.others['hand-augered top']),
  ];
  const called = (id: string): string => {
    const thing = findThing(campaign, id)?.thing;
    return thing === undefined ? id : nameOf(thing);
  };
  if (splices.length === 0)
    return `Nothing is joined. Records: ${records.map(nameOf).join(', ') || 'none'}.\n`;
  const touched = new Set(splices.flatMap(({ of, on }) => [of, on]));
  const reference = wanted ?? records.find(({ id }) => touched.has(id))?.id ?? splices[0]!.on;
  const joined = joinRecords(splices, reference);
  const alone = records.filter(({ id }) => !touched.has(id) && id !== reference);
  const lines = [
    `Depths on those of ${called(reference)}:`,
    ...[...joined.offsets]
      .filter(([id]) => id !== reference)
      .map(
        ([id, offset]) =>
          `  ${called(id)}: its depths are ${size(offset)} ${offset.value < 0 ? 'less' : 'more'} for the same ice`,
      ),
    'Splices:',
    ...splices.map((splice) => `  ${spliceLine(campaign, splice, called)}`),
    ...loopLines(joined, splices, called),
    ...(joined.apart.length === 0
      ? []
      : [`Not joined to ${called(reference)}: ${joined.apart.map(called).join(', ')}.`]),
    ...(alone.length === 0 ? [] : [`Joined to nothing: ${alone.map(nameOf).join(', ')}.`]),
  ];
  return `${lines.join('\n')}\n`;
}

/** A hole without a core's name is called by its letter alone, which says little in a sentence. */
const nameOf = ({ kind, name }: ThingView): string =>
  kind === 'hole' && name.length === 1 ? `hole ${name}` : name;

const centimetres = (metres: number): string => (100 * metres).toFixed(1);

const size = ({ value, sd }: DepthWithError): string =>
  `${centimetres(Math.abs(value))} ± ${centimetres(sd)} cm`;

const spliceLine = (campaign: CampaignView, splice: Splice, called: (id: string) => string): string => {
  const thing = findThing(campaign, splice.id)?.thing;
  const method = thing?.readings.method?.text;
  const by = campaign.people.find(({ id }) => id === thing?.by)?.name;
  const { value, sd } = splice.offset;
  return [
    `${called(splice.of)} = ${called(splice.on)} ${value < 0 ? '-' : '+'} ${centimetres(Math.abs(value))} ± ${centimetres(sd)} cm`,
    method,
    by,
  ]
    .filter((part) => part !== undefined && part !== '')
    .join(', ');
};

const loopLines = (
  { loops }: Joined,
  splices: readonly Splice[],
  called: (id: string) => string,
): readonly string[] =>
  loops.map((loop) => {
    const names = new Set(
      loop.splices.flatMap((id) => {
        const splice = splices.find((one) => one.id === id);
        return splice === undefined ? [] : [called(splice.of), called(splice.on)];
      }),
    );
    const left = `${loop.misclosure.value < 0 ? '-' : '+'}${size(loop.misclosure)}`;
    return `Round ${[...names].join(', ')}: misclosure ${left}, ${
      loop.closes ? 'it closes' : 'it does not close: measure these splices again'
    }.`;
  });
