import type { Page } from 'playwright-core';

/** What a new user does first: a campaign, a hole, its zero, and the cautions read. Ends in Drill. */
export async function openCampaign(page: Page, address: string, name: string): Promise<void> {
  await page.goto(address);
  await page.getByLabel('Name of the campaign').fill(name);
  await page.getByLabel('Your initials').fill('HN');
  await page.getByRole('button', { name: 'Open the campaign' }).click();
  await page.locator('[data-choice="B"]').click();
  await page.getByRole('button', { name: 'Snow surface' }).click();
  await page.getByRole('button', { name: 'Read; to the form' }).click();
  await page.getByRole('heading', { name: 'Run 1: depth from' }).waitFor();
  // The form may stand there before the address says so; tests make addresses of it.
  await page.waitForURL(/\/c\/[^/]+\/B\/drill$/);
}

/** The number in the open question, key by key on the pad, as a thumb would. */
export async function pad(page: Page, number: string): Promise<void> {
  for (const key of number) {
    const name = /\d/.test(key) ? key : 'Decimal sign';
    await page.locator('.pad').getByRole('button', { name, exact: true }).click();
  }
}

export async function answer(page: Page, choice: string): Promise<void> {
  await page.locator(`[data-choice="${choice}"]`).click();
}

/** A driller's run from the first question to the answer, by touch. */
export async function drillRun(
  page: Page,
  run: { readonly from?: string; readonly to: string },
): Promise<void> {
  if (run.from !== undefined) await pad(page, run.from);
  await page.locator('.question button[type="submit"]').click();
  await pad(page, run.to);
  await page.locator('.question button[type="submit"]').click();
  await answer(page, 'core');
  await page.locator('.answer').waitFor();
}

export interface Piece {
  readonly topBreak: 'fits' | 'loss' | 'unsure';
  readonly loss?: string;
  readonly length: string;
}

/** One piece at the bench, by touch, up to its answer. */
export async function logPiece(page: Page, piece: Piece): Promise<void> {
  await answer(page, piece.topBreak);
  if (piece.topBreak === 'loss') {
    await pad(page, piece.loss ?? '1');
    await page.locator('.question button[type="submit"]').click();
  }
  await pad(page, piece.length);
  await page.locator('.question button[type="submit"]').click();
  await page.locator('.answer').waitFor();
}

export async function goTo(page: Page, place: 'Drill' | 'Log' | 'Core' | 'Camp'): Promise<void> {
  await page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name: place }).click();
}
