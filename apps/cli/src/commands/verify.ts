import { createLedger } from '@firnbook/journal';
import { type DeviceRecord, openDevices } from '@firnbook/server';
import { campaignPaths, listCampaigns, type SignedVerdict, verifySigned } from '@firnbook/storage/sqlite';
import { Command } from 'commander';
import { existingDataFolder } from '../data-folder.ts';
import { CommandError } from '../refusal.ts';
import type { End, Terminal } from '../terminal.ts';
import { countWords, type WroteIn, wroteIn } from '../wrote-in-folder.ts';

const example = `
Reads every journal without changing it, also while the server runs: the database's structure, every hash, every
device's chain, every signature, and the digest over all entries. Two computers that print the same digest hold the
same entries. Entries are unsigned where their device had no key: over plain http a browser has none.
Below stands what each paired device signed, and what came after one was revoked.

Example: firnbook verify --data ./firnbook-data
  0190f3c2-...: 214 entries (210 signed, 4 unsigned), digest 5f0c..., sound
    tablet 3, revoked 2031-01-17: 34 entries, 2 came after it was revoked

The exit code is 1 when anything is damaged; each damaged entry is named.
`;

export const verifyCommand = (terminal: Terminal, end: End): Command =>
  new Command('verify')
    .description('check hashes, chains, signatures and digest of every entry')
    .option('--data <folder>', 'data folder of the book')
    .option('--json', 'the same for programs')
    .addHelpText('after', example)
    .action((options: { readonly data?: string; readonly json?: boolean }) => {
      const folder = existingDataFolder(options.data, terminal);
      const campaigns = listCampaigns(folder);
      if (campaigns.length === 0)
        throw new CommandError('there is no campaign', folder, 'Choose another folder with --data.');
      const devices = listDevices(folder, terminal);
      const verdicts = campaigns.map((id) => {
        terminal.err(`Reading ${id} ...\n`);
        const ledger = createLedger();
        const verdict = verifySigned(campaignPaths(folder, id).journal, (entry) => void ledger.add([entry]));
        const devicesHere = wroteIn(id, ledger, devices).map((one) => ({
          ...one,
          revokedAt: devices.find((device) => device.id === one.device)?.revokedAt ?? null,
        }));
        return { id, ...verdict, devices: devicesHere };
      });
      terminal.out(options.json ? `${JSON.stringify(verdicts, null, 2)}\n` : verdicts.map(inWords).join(''));
      if (verdicts.some((verdict) => !verdict.ok)) end(1);
    });

type Told = SignedVerdict & {
  readonly id: string;
  readonly devices: readonly (WroteIn & { readonly revokedAt: string | null })[];
};

/** A list that can't be read keeps nobody from looking at the record. */
const listDevices = (folder: string, terminal: Terminal): readonly DeviceRecord[] => {
  try {
    return openDevices(folder).list();
  } catch (error) {
    terminal.err(`${error instanceof Error ? error.message : String(error)}\n`);
    return [];
  }
};

const inWords = (verdict: Told): string => {
  const withheld = verdict.withheld === 0 ? '' : `, ${verdict.withheld} without their body`;
  const { signed, unsigned, unknownKey, wrong } = verdict.signatures;
  const proof = [
    `${signed} signed`,
    `${unsigned} unsigned`,
    ...(unknownKey === 0 ? [] : [`${unknownKey} signed by a key that is not known here`]),
    ...(wrong === 0 ? [] : [`${wrong} with a WRONG signature`]),
  ];
  const state = verdict.ok ? 'sound' : 'DAMAGED';
  const lines = verdict.findings.map(({ what, where, mend }) => `  ${what} (${where}). ${mend}\n`);
  const devices = verdict.devices.map(
    (one) =>
      `  ${one.name}${one.revokedAt === null ? '' : `, revoked ${one.revokedAt.slice(0, 10)}`}: ${countWords(one)}\n`,
  );
  return `${verdict.id}: ${verdict.entries} entries (${proof.join(', ')})${withheld}, digest ${verdict.digest}, ${state}\n${devices.join('')}${lines.join('')}`;
};
