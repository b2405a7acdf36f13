import type { Page } from 'playwright-core';

/** A person at a hardware keyboard: frost on the screen, key events alone. */
export interface Keys {
  /** What has the focus, as it is called. */
  focused(): Promise<string>;
  /** Tab until the focus is on what is called so; a person gives up after sixty. */
  tabTo(name: RegExp): Promise<void>;
  press(name: RegExp): Promise<void>;
  heading(name: RegExp): Promise<void>;
  /** Digits and Enter. */
  number(text: string): Promise<void>;
}

export function keysOn(page: Page): Keys {
  const focused = (): Promise<string> =>
    page.evaluate(() => {
      const at = document.activeElement as HTMLInputElement | null;
      return at?.getAttribute('aria-label') ?? at?.labels?.[0]?.textContent ?? at?.textContent ?? '';
    });
  const tabTo = async (name: RegExp): Promise<void> => {
    for (let presses = 0; presses < 60; presses += 1) {
      if (name.test(await focused())) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`Sixty times Tab do not lead to ${name}; the last one led to "${await focused()}".`);
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
