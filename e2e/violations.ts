import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type axe from 'axe-core';
import type { Page } from 'playwright-core';
import { root } from './folders.ts';

declare global {
  interface Window {
    axe: typeof axe;
  }
}

const source = readFileSync(join(root, 'node_modules/axe-core/axe.min.js'), 'utf8');

interface Shown {
  readonly looks: readonly string[];
  /** Of the window, CSS pixels. */
  readonly sizes: readonly (readonly [width: number, height: number])[];
}

const everyWay: Shown = {
  looks: ['standard', 'sun', 'night'],
  sizes: [
    [1440, 900],
    [390, 844],
  ],
};

/** What axe-core finds against WCAG 2.2 A and AA (contrast AAA inside field forms), in every look and width. */
export async function violationsOn(page: Page, shown: Shown = everyWay): Promise<readonly string[]> {
  const found: string[] = [];
  for (const [width, height] of shown.sizes) {
    await page.setViewportSize({ width, height });
    for (const look of shown.looks) {
      await page.evaluate((name) => {
        document.documentElement.dataset.theme = name;
      }, look);
      await page.evaluate(source);
      const lines = await page.evaluate(async () => {
        const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
        const whole = await window.axe.run(document, { runOnly: tags });
        const field = '.question, .calc-question';
        const forms = document.querySelector(field)
          ? await window.axe.run(field, {
              runOnly: { type: 'rule', values: ['color-contrast-enhanced'] },
            })
          : { violations: [] };
        return [...whole.violations, ...forms.violations].map(
          (one) => `${one.id}: ${one.nodes.map((node) => node.target.join(' ')).join(', ')}`,
        );
      });
      found.push(...lines.map((line) => `${look}, ${width} px: ${line}`));
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
  return found;
}
