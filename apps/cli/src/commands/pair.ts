import { printQr } from '@firnbook/server';
import { Command } from 'commander';
import { askServer } from '../ask-server.ts';
import { dataFolder } from '../data-folder.ts';
import type { Terminal } from '../terminal.ts';

const example = `
Shows two codes: the first brings a tablet to the page with the camp's certificate, the second pairs it. The second is
good for ten minutes and for one tablet; run the command again for the next one. The server has to run. The same stands
on the camp computer's screen, under Camp, Devices.

Example: firnbook pair
`;

interface Offer {
  readonly installAddress: string;
  readonly url: string;
  readonly address: string;
  readonly code: string;
  readonly fingerprint: string;
}

export const pairCommand = (terminal: Terminal): Command =>
  new Command('pair')
    .description('show the codes that bring a tablet into the book')
    .option('--data <folder>', 'data folder of the book')
    .addHelpText('after', example)
    .action(async ({ data }: { readonly data?: string }) => {
      const folder = dataFolder(data, terminal);
      const offer = (await askServer(folder, '/api/pairing/offers', 'POST')) as Offer;
      const drawn = (text: string) => (terminal.isPerson ? printQr(text) : '');
      terminal.out(
        `1. Once on each tablet: the camp's certificate, at ${offer.installAddress}\n${drawn(offer.installAddress)}` +
          `   Its fingerprint (SHA-256): ${offer.fingerprint}\n\n` +
          `2. Pair this one tablet within ten minutes: ${offer.url}\n${drawn(offer.url)}` +
          `   Without a camera: open ${offer.address}/pair and type ${offer.code}\n`,
      );
    });
