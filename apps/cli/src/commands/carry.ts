import { once } from 'node:events';
import {
  closeSync,
  createWriteStream,
  existsSync,
  fsyncSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { join, resolve } from 'node:path';
import {
  CARRY_NOTE,
  type CarryPeer,
  carryFileName,
  carryLines,
  readCarryPeers,
} from '@firnbook/exchange/carry';
import { Command } from 'commander';
import { counted, lookInto, nameHere, tornWords } from '../carry-file.ts';
import { existingDataFolder } from '../data-folder.ts';
import { type Desk, type OpenBook, openDesk } from '../desk.ts';
import { findCampaign } from '../find-in-book.ts';
import { CommandError } from '../refusal.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Writes one file that another device can bring in: a tablet, another camp computer, another command line. It holds every
entry of the campaign and its photographs; with --for only what the other device lacks, as far as its own file told:
name that file, or the device whose file was brought in here.

Two computers that meet by stick alone hold the same after two files:
  one    firnbook carry /media/stick
  other  firnbook bring "/media/stick/Ceredin Saddle from camp computer (one) 2031-06-14 0930 UTC.jsonl"
  other  firnbook carry /media/stick --for "camp computer (one)"
  one    firnbook bring "/media/stick/Ceredin Saddle from camp computer (other) 2031-06-14 0935 UTC.jsonl"

What is written can be read by anybody who finds the stick. The format: docs/carry-file.md.
`;

interface Options {
  readonly campaign?: string;
  readonly for?: string;
  readonly data?: string;
}

export const carryCommand = (terminal: Terminal): Command =>
  new Command('carry')
    .description('write a file that another device brings in')
    .argument('<out>', 'the file, or a folder (a stick) where it gets a name')
    .option('--campaign <name>', 'name or id of the campaign, where there are several')
    .option('--for <file-or-device>', 'only what this device lacks')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (place: string, options: Options) => {
      const desk = await openDesk(existingDataFolder(options.data, terminal));
      try {
        const opened = await campaignOf(desk, options.campaign);
        if (opened.trouble !== null)
          throw new CommandError(
            `what is on the camp computer could not be had: ${opened.trouble}`,
            `campaign ${opened.campaign}`,
            'Mend that first, or the file would miss it.',
          );
        const peer = options.for === undefined ? null : await peerOf(options.for, opened);
        const name = opened.book.view().name;
        const target = placeOf(place, carryFileName(name, nameHere(), Date.now()));
        const { entries, attachments } = await write(desk, opened, peer, target);
        const forWhom = peer === null ? '' : ` that ${peer.deviceName} lacks`;
        terminal.out(
          `${target}: ${counted(entries, 'entry', 'entries')} and ${counted(attachments, 'attachment', 'attachments')}${forWhom}, read back\n`,
        );
      } finally {
        await desk.close();
      }
    });

const campaignOf = async (desk: Desk, said: string | undefined): Promise<OpenBook> => {
  if (said !== undefined) return findCampaign(desk, said);
  const ids = await desk.campaigns();
  if (ids.length === 1) return desk.open(ids[0]!);
  throw new CommandError(
    ids.length === 0 ? 'the book is empty' : `there are ${ids.length} campaigns`,
    '--campaign',
    ids.length === 0 ? 'There is nothing to carry yet.' : 'Say which: firnbook state lists them.',
  );
};

const peerOf = async (said: string, { campaign, notes }: OpenBook): Promise<CarryPeer> => {
  if (existsSync(said)) {
    const { first, torn } = await lookInto(said);
    if (first.campaign !== campaign)
      throw new CommandError(
        `the file is of campaign ${first.campaignName} (${first.campaign})`,
        said,
        'Name its own campaign with --campaign.',
      );
    if (torn === null) return first;
    throw new CommandError(
      tornWords(torn).replace(/\.$/, ''),
      said,
      'What it says of its device is not relied on: leave out --for, and everything is written.',
    );
  }
  const peers = readCarryPeers(await notes.note(CARRY_NOTE));
  const found = peers.find(({ device, deviceName }) => device === said || deviceName === said);
  if (found !== undefined) return found;
  const names = peers.map(({ deviceName }) => deviceName);
  throw new CommandError(
    'there is no such file, and no device of this name whose file was brought in',
    `--for ${said}`,
    names.length === 0
      ? 'Leave out --for, and everything is written.'
      : `Brought in were files of: ${names.join(', ')}.`,
  );
};

const placeOf = (place: string, name: string): string => {
  const target = resolve(place);
  const isFolder = statSync(target, { throwIfNoEntry: false })?.isDirectory() ?? false;
  const file = isFolder ? join(target, name) : target;
  if (existsSync(file)) throw new CommandError('a file is there already', file, 'Choose another name.');
  return file;
};

/** Under another name first, flushed, renamed, and read again to its last line. */
const write = async (desk: Desk, opened: OpenBook, peer: CarryPeer | null, target: string) => {
  const { campaign, replica, book } = opened;
  const unfinished = `${target}.unfinished-${process.pid}`;
  const held = (sha256: string) => desk.camp.attachment(campaign, sha256);
  const lines = carryLines({
    campaign,
    campaignName: book.view().name,
    ledger: replica.ledger,
    device: replica.device,
    deviceName: nameHere(),
    now: Date.now(),
    attachments: {
      has: async (sha256) => (await held(sha256)) !== null,
      read: async (sha256) => {
        const bytes = await held(sha256);
        return bytes === null ? null : new Uint8Array(bytes);
      },
    },
    peer,
  });
  try {
    const out = createWriteStream(unfinished, { flags: 'wx' });
    await once(out, 'open');
    for await (const line of lines) if (!out.write(line)) await once(out, 'drain');
    out.end();
    await once(out, 'close');
    flush(unfinished);
    renameSync(unfinished, target);
  } finally {
    rmSync(unfinished, { force: true });
  }
  const { first, torn } = await lookInto(target);
  if (torn === null) return first;
  throw new CommandError('the file did not read back as it was written', target, 'Take another stick.');
};

const flush = (file: string): void => {
  const handle = openSync(file, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
};
