import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { knowStick } from '@firnbook/server';
import { nameStick } from '@firnbook/storage/sqlite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startCamp } from './camp.ts';
import { openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

let scratch: Scratch;
beforeAll(() => {
  scratch = makeScratch('sticks');
});
afterAll(() => scratch.remove());

describe('a second medium', () => {
  it('is ticked when the stick was read back; a blank camp computer gets the campaign back from it', async () => {
    const stickFolder = join(scratch.path, 'stick');
    mkdirSync(stickFolder);
    const stick = nameStick(stickFolder, { id: 'stick-1', name: 'red' });
    const known = { ...stick, folder: stickFolder, tested: null };
    const data = join(scratch.path, 'data');
    mkdirSync(data);
    knowStick(data, known);

    const camp = await startCamp(data);
    const tablet = await openTablet(join(scratch.path, 'profile'));
    const { page } = tablet;
    await openCampaign(page, camp.address, 'Ceredin Saddle');
    const ticks = page.locator('.ticks');
    await ticks.getByText('on the camp computer').waitFor();
    await ticks.getByText('second medium: not yet').waitFor();
    // the stick is looked for at the start and every half minute
    await camp.kill();
    await camp.restart();
    await ticks.getByText('on a second medium').waitFor({ timeout: 30_000 });
    await ticks.click();
    await page.getByText('Stick red is in: last copy just now, read back').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await camp.kill();

    // the laptop is gone; another one, the same stick, a tablet that never saw the campaign
    const blank = join(scratch.path, 'blank');
    mkdirSync(blank);
    knowStick(blank, known);
    const other = await startCamp(blank);
    const fresh = await openTablet(join(scratch.path, 'profile-2'));
    await fresh.page.setViewportSize({ width: 390, height: 844 });
    await fresh.page.goto(other.address);
    await fresh.page.getByRole('heading', { name: 'On sticks, and not on the camp computer' }).waitFor();
    expect(await violationsOn(fresh.page)).toEqual([]);
    const button = fresh.page.getByRole('button', { name: /Bring it back/ });
    await button.focus();
    await fresh.page.keyboard.press('Enter');
    await fresh.page.getByText('It is back.').waitFor();
    await fresh.page.getByRole('link', { name: /Ceredin Saddle/ }).click();
    await fresh.page.locator('.ticks').getByText('on the camp computer').waitFor();
    await fresh.close();
    await tablet.close();
    await other.kill();
  });
});
