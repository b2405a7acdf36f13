import type { Page } from 'playwright-core';

/** Visible targets of the open form that are smaller than 15 mm or nearer than 3 mm to the next one. */
export function cramped(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    // 1 mm = 96 / 25.4 CSS pixels.
    const mm = (px: number) => (px * 25.4) / 96;
    const targets = [
      ...document.querySelectorAll(
        '.question button, .question input, .question textarea, .question + button, .camp-page button, .calc-question button, .calc-question input',
      ),
    ].filter((one) => one.checkVisibility());
    const boxes = targets.map((one) => ({
      name: one.getAttribute('aria-label') ?? one.textContent ?? '',
      box: one.getBoundingClientRect(),
    }));
    const small = boxes
      .filter(({ box }) => mm(box.width) < 15 || mm(box.height) < 15)
      .map(({ name, box }) => `${name}: ${mm(box.width).toFixed(1)} x ${mm(box.height).toFixed(1)} mm`);
    const near = boxes.flatMap((a, i) =>
      boxes.slice(i + 1).flatMap((b) => {
        const dx = Math.max(b.box.left - a.box.right, a.box.left - b.box.right);
        const dy = Math.max(b.box.top - a.box.bottom, a.box.top - b.box.bottom);
        const apart = mm(Math.max(dx, dy));
        return apart < 3 ? [`${a.name} and ${b.name}: ${apart.toFixed(1)} mm apart`] : [];
      }),
    );
    return [...small, ...near];
  });
}
