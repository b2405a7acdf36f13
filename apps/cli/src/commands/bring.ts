import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import {
  CARRY_NOTE,
  type CarryPreview,
  lacking,
  previewCarry,
  rememberPeer,
  takeCarry,
} from '@firnbook/exchange/carry';
import { createLedger, digest } from '@firnbook/journal';
import { verifyEd25519 } from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { chunksOf, counted, lookInto, onCarried, refusedWords, tornWords } from '../carry-file.ts';
import { dataFolder } from '../data-folder.ts';
import { type Desk, openDesk } from '../desk.ts';
import type { End, Terminal } from '../terminal.ts';

const example = `
Brings in what another device wrote for this book with "Save a copy to carry away" or firnbook carry. Every line is
checked: what is no good is named and left, the rest is taken. Of a torn file that is what is whole. Bringing a file
twice changes nothing, so when in doubt bring it again. A campaign that is not here yet is made.

With --dry-run nothing is written; it says what would come.

Example: firnbook bring "/media/stick/Ceredin Saddle from Tablet 3A 2031-06-14 0930 UTC.jsonl"

The exit code is 1 when the file is torn or a line was refused.
`;

interface Options {
  readonly dryRun?: boolean;
  readonly data?: string;
}

export const bringCommand = (terminal: Terminal, end: End): Command =>
  new Command('bring')
    .description('bring in a file that another device wrote')
    .argument('<file>', 'the file')
    .option('--dry-run', 'only say what would come')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async (place: string, options: Options) => {
      const file = resolve(place);
      const { first } = await lookInto(file);
      const folder = dataFolder(options.data, terminal);
      // Looking makes neither a folder nor a journal.
      const desk = options.dryRun && !existsSync(folder) ? null : await openDesk(folder);
      try {
        const preview = await onCarried(file, () => bring(desk, file, first.campaign, options, terminal));
        if (preview.torn !== null || preview.refused.count > 0) end(1);
      } finally {
        await desk?.close();
      }
    });

const bring = async (
  desk: Desk | null,
  file: string,
  campaign: string,
  { dryRun }: Options,
  terminal: Terminal,
): Promise<CarryPreview> => {
  const isHere = (await desk?.campaigns())?.includes(campaign) ?? false;
  const has = async (sha256: string) => isHere && (await desk?.camp.attachment(campaign, sha256)) != null;
  const opened = isHere || !dryRun ? await desk?.open(campaign) : undefined;
  const preview = await previewCarry(chunksOf(file), {
    ledger: opened?.replica.ledger ?? createLedger(),
    hasAttachment: has,
    verify: verifyEd25519,
  });
  terminal.out(previewWords(preview, isHere, Date.now()));
  if (dryRun || desk === null || opened === undefined) {
    terminal.out('Nothing was written.\n');
    return preview;
  }
  const { replica, notes } = opened;
  let isSynced = false;
  const taken = await takeCarry(chunksOf(file), preview, {
    take: replica.take,
    hasAttachment: async (sha256) => (await desk.camp.attachment(campaign, sha256)) !== null,
    keepAttachment: async (sha256, bytes) => {
      // The camp computer takes an attachment of a campaign that it has.
      if (!isSynced) await opened.sync();
      isSynced = true;
      await desk.camp.attach(campaign, sha256, bytes);
    },
    onProgress: (entries) => terminal.err(`${entries} entries ...\n`),
  });
  await opened.sync();
  if (taken.torn === null)
    await notes.setNote(CARRY_NOTE, rememberPeer(await notes.note(CARRY_NOTE), preview.first));
  const { ledger } = replica;
  terminal.out(
    `Brought in: ${counted(taken.added, 'entry', 'entries')}, ${counted(taken.attachments, 'attachment', 'attachments')}. Here are ${ledger.size} entries, digest ${digest(ledger)}\n`,
  );
  const lacks = taken.torn === null ? lacking(ledger, preview.first) : 0;
  if (lacks > 0)
    terminal.out(
      `${preview.first.deviceName} lacks ${counted(lacks, 'entry', 'entries')} that ${lacks === 1 ? 'is' : 'are'} here. To write them: firnbook carry OUT --campaign ${campaign} --for "${preview.first.deviceName}"\n`,
    );
  return preview;
};

const previewWords = (preview: CarryPreview, isHere: boolean, now: number): string => {
  const { first, fresh, held, attachments, refused, torn } = preview;
  const ahead = Date.parse(first.madeAt) - now;
  return [
    `${first.campaignName || first.campaign}, from ${first.deviceName || first.device}, written ${first.madeAt}\n`,
    isHere ? '' : 'This campaign is not here yet.\n',
    ahead > 60_000
      ? `Its clock is at least ${Math.round(ahead / 60_000)} min ahead of this computer's: one of them is wrong.\n`
      : '',
    `${counted(fresh, 'entry', 'entries')} new, ${held} here already; ${counted(attachments.fresh, 'attachment', 'attachments')} new, ${attachments.held} here already\n`,
    torn === null ? '' : `${tornWords(torn)} What is whole is taken; ask for the file again.\n`,
    refusedWords(refused),
  ].join('');
};
