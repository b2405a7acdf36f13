import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { makeScratch, root } from './folders.ts';
import { openTablet } from './tablet.ts';

/**
 * Retakes the pictures of README from the built checkout and the demo campaign: `npm run pictures`.
 * Names tell the screen, the width and the theme.
 */
const folder = join(root, 'docs/pictures');
const shots = [
  { name: 'core-desk', place: 'core', width: 1440, height: 900, theme: 'standard', depth: '41,4' },
  { name: 'log-tablet', place: 'log', width: 820, height: 1180, theme: 'standard' },
  { name: 'drill-phone', place: 'drill', width: 390, height: 844, theme: 'standard' },
  { name: 'drill-phone-sun', place: 'drill', width: 390, height: 844, theme: 'sun' },
  { name: 'core-phone-night', place: 'core', width: 390, height: 844, theme: 'night', depth: '41,4' },
  { name: 'drill-desk', place: 'drill', width: 1440, height: 900, theme: 'standard' },
  { name: 'today-desk', place: 'today', width: 1440, height: 900, theme: 'standard' },
  { name: 'zeros-desk', place: 'zeros', width: 1440, height: 900, theme: 'standard' },
  { name: 'readings-tablet', place: 'readings', width: 820, height: 1180, theme: 'standard' },
  { name: 'calculator-desk', place: 'drill', width: 1440, height: 900, theme: 'standard', ask: 'closure' },
  { name: 'calculator-phone', place: 'log', width: 390, height: 844, theme: 'standard', ask: 'density' },
] as const satisfies readonly Shot[];

interface Shot {
  readonly name: string;
  readonly place: string;
  readonly width: number;
  readonly height: number;
  readonly theme: string;
  /** Metres that the core is gone to. */
  readonly depth?: string;
  /** Question of the bench calculator that is opened over the place. */
  readonly ask?: string;
}

const scratch = makeScratch('pictures');
mkdirSync(folder, { recursive: true });
const bin = join(root, 'apps/cli/bin/firnbook.js');
const args = ['start', '--no-open', '--port', '7497', '--data', join(scratch.path, 'data')];
const server = spawn(process.execPath, [bin, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
const tablet = await openTablet(join(scratch.path, 'profile'));
try {
  let address = '';
  for await (const line of createInterface({ input: server.stdout })) {
    address = /http:\S+/.exec(line)?.[0] ?? '';
    if (address !== '') break;
  }
  const { page } = tablet;
  await page.goto(address);
  await page.getByText('Ceredin Saddle').first().click();
  await page.getByRole('button', { name: 'HN' }).first().click();
  await page.getByRole('button', { name: 'Read; to the form' }).click();
  const campaign = /\/c\/([^/]+)/.exec(page.url())?.[1];
  for (const { name, place, width, height, theme, ...more } of shots as readonly Shot[]) {
    await page.setViewportSize({ width, height });
    await page.evaluate((chosen) => localStorage.setItem('firnbook.look', chosen), theme);
    await page.goto(`${address}/c/${campaign}/B/${place}`);
    await page.locator('.tick.safe').nth(1).waitFor();
    await page.waitForTimeout(place === 'core' || place === 'readings' ? 4000 : 1500);
    if (more.depth !== undefined) {
      await page.getByLabel('Go to depth').fill(more.depth);
      await page.getByRole('button', { name: 'Go', exact: true }).click();
      await page.waitForTimeout(1000);
    }
    if (more.ask !== undefined) {
      await page.keyboard.press('Alt+c');
      await page.locator(`[data-choice="${more.ask}"]`).click();
      // Room of the drill, millimetres: the one number that the book has not.
      if (more.ask === 'closure') await page.keyboard.type('6\n');
      await page.locator('.calc-answer .say').first().waitFor();
    }
    const that = page.getByRole('button', { name: 'Show that day' });
    if (place === 'today' && (await that.isVisible())) {
      await that.click();
      await page.waitForTimeout(500);
    }
    await page.screenshot({ path: join(folder, `${name}.png`) });
  }
} finally {
  await tablet.close();
  server.kill('SIGTERM');
  scratch.remove();
}
