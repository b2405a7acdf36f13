import type { Page } from 'playwright-core';
import { vi } from 'vitest';

/** A person at a hardware keyboard: frost on the screen, key events alone. */
export interface Keys {
  /** What has the focus, as it is called. */
  focused(): Promise<string>;
  /** Tab until the focus is on what is called so, once that is there. */
  tabTo(name: RegExp): Promise<void>;
  press(name: RegExp): Promise<void>;
  heading(name: RegExp): Promise<void>;
  /** Digits and Enter. */
  number(text: string): Promise<void>;
}

/** @param most Tabs after which a person gives up */
export function keysOn(page: Page, most = 60): Keys {
  /** What it is called: of what has the focus, or of everything that can have it. */
  const names = (which: 'focused' | 'all'): Promise<readonly string[]> =>
    page.evaluate((asked) => {
      const focusable = 'a[href], :is(button, input, select, textarea):enabled, summary, [tabindex]';
      const boxes =
        asked === 'focused' ? [document.activeElement] : [...document.querySelectorAll(focusable)];
      return boxes.map((box) => {
        const at = box as HTMLInputElement | null;
        return at?.getAttribute('aria-label') ?? at?.labels?.[0]?.textContent ?? at?.textContent ?? '';
      });
    }, which);
  const focused = async (): Promise<string> => (await names('focused'))[0] ?? '';
  const tabTo = async (name: RegExp): Promise<void> => {
    // What is still being worked out is not looked for before it is there; where it never comes, the Tabs tell.
    await vi
      .waitUntil(async () => (await names('all')).some((one) => name.test(one)), { timeout: 20_000 })
      .catch(() => undefined);
    for (let presses = 0; presses < most; presses += 1) {
      if (name.test(await focused())) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`${most} times Tab do not lead to ${name}; the last one led to "${await focused()}".`);
  };
  return {
    focused,
    tabTo,
    async press(name) {
      await tabTo(name);
      await page.keyboard.press('Enter');
    },
    heading: (name) => page.getByRole('heading', { name }).first().waitFor(),
    async number(text) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    },
  };
}
