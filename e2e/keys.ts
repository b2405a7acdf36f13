import type { Page } from 'playwright-core';

/** A person at a hardware keyboard: frost on the screen, key events alone. */
export interface Keys {
  /** What has the focus, as it is called. */
  focused(): Promise<string>;
  /** Tab until the focus is on what is called so; what is still being worked out is looked for again. */
  tabTo(name: RegExp): Promise<void>;
  press(name: RegExp): Promise<void>;
  heading(name: RegExp): Promise<void>;
  /** Digits and Enter. */
  number(text: string): Promise<void>;
}

/** A person gives up after a round of so many Tabs, and after so many milliseconds of rounds. */
const patience = { tabs: 90, for: 20_000 };

export function keysOn(page: Page): Keys {
  const focused = (): Promise<string> =>
    page.evaluate(() => {
      const at = document.activeElement as HTMLInputElement | null;
      return at?.getAttribute('aria-label') ?? at?.labels?.[0]?.textContent ?? at?.textContent ?? '';
    });
  const tabTo = async (name: RegExp): Promise<void> => {
    const until = Date.now() + patience.for;
    do {
      for (let presses = 0; presses < patience.tabs; presses += 1) {
        if (name.test(await focused())) return;
        await page.keyboard.press('Tab');
      }
    } while (Date.now() < until);
    throw new Error(
      `${patience.tabs} times Tab do not lead to ${name}; the last one led to "${await focused()}".`,
    );
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
