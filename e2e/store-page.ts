import type { Page } from 'playwright-core';
import type { StorePage } from './pages/store.ts';

declare global {
  /** What the page store.html offers to whoever drives it. */
  var storePage: StorePage;
}

/** The bare page over the browser store, ready to be asked. */
export async function visitStore(page: Page, address: string): Promise<Page> {
  await page.goto(`${address}/store.html`);
  await page.waitForFunction(() => typeof storePage !== 'undefined');
  return page;
}
