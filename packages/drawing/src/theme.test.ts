import { describe, expect, it } from 'vitest';
import { contrast } from './contrast.ts';
import type { ColourName } from './shape.ts';
import { colourNames, type ThemeName, themeStyleSheet, themes, themeVariables } from './theme.ts';

const names = Object.keys(themes) as ThemeName[];

/** WCAG 2.2: 1.4.6 (AAA) 7:1 for text, 1.4.3 (AA) 4.5:1 for text, 1.4.11 (AA) 3:1 for what a picture means. */
const wanted: readonly (readonly [ColourName, ColourName, number])[] = [
  ['ink', 'sheet', 7],
  ['ink', 'paper', 7],
  ['ink', 'call-bg', 7],
  ['ink-2', 'sheet', 7],
  ['ink-2', 'paper', 4.5],
  ['ink-2', 'call-bg', 4.5],
  ['call', 'sheet', 7],
  ['call', 'call-bg', 7],
  ['act', 'sheet', 4.5],
  ['act', 'paper', 4.5],
  ['act-ink', 'act', 4.5],
  ['ok', 'sheet', 7],
  ['sheet', 'ink', 7],
  ['sheet', 'call', 4.5],
  ['ink', 'ice', 4.5],
  ['ink', 'ice-lit', 4.5],
  ['ink', 'ice-edge', 4.5],
  ['melt-ink', 'ice', 3],
  ['dust', 'ice', 3],
  ['act', 'ice', 3],
];

describe.each(names)('theme %s', (name) => {
  const { colours } = themes[name];

  it('has a six-digit value for every colour name and no other name', () => {
    expect(Object.keys(colours).sort()).toEqual([...colourNames].sort());
    for (const value of Object.values(colours)) expect(value).toMatch(/^#[0-9a-f]{6}$/);
  });

  it.each(wanted)('shows %s on %s with at least %d:1', (front, back, least) => {
    expect(contrast(colours[front], colours[back])).toBeGreaterThanOrEqual(least);
  });
});

describe('night', () => {
  it('is red only: red leads in every colour', () => {
    for (const value of Object.values(themes.night.colours)) {
      const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(value.slice(at, at + 2), 16));
      expect(r).toBeGreaterThan(g!);
      expect(r).toBeGreaterThan(b!);
    }
  });
});

describe('themeVariables', () => {
  it('names every colour as a custom property', () => {
    expect(themeVariables(themes.sun)['--ink-2']).toBe('#222222');
    expect(themeVariables(themes.sun)['--stroke']).toBe('1.7');
  });
});

describe('themeStyleSheet', () => {
  it('has a rule for each theme and the standard one on the root', () => {
    const css = themeStyleSheet();
    expect(css.split('\n')).toHaveLength(3);
    expect(css).toContain(':root,[data-theme="standard"]{--paper:#f6f8f9;');
    expect(css).toContain('[data-theme="night"]{--paper:#150605;');
  });
});
