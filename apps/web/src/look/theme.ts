import { type ThemeName, themeStyleSheet } from '@firnbook/drawing';
import { useSyncExternalStore } from 'react';

export const themeNames: readonly ThemeName[] = ['standard', 'sun', 'night'];

const place = 'firnbook.look';
const listeners = new Set<() => void>();

/**
 * Puts the colours of all themes on the page, made from the drawing room's one table. A constructed sheet is used
 * because the page's content policy refuses inline styles.
 */
export function hangThemes(page: Document): void {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(themeStyleSheet());
  page.adoptedStyleSheets = [...page.adoptedStyleSheets, sheet];
  page.documentElement.dataset.theme = keptTheme();
}

/** The theme that this device showed last; standard where none is kept. */
function keptTheme(): ThemeName {
  const kept = localStorage.getItem(place);
  return themeNames.find((name) => name === kept) ?? 'standard';
}

export function keepTheme(page: Document, name: ThemeName): void {
  localStorage.setItem(place, name);
  page.documentElement.dataset.theme = name;
  for (const listener of listeners) listener();
}

/** The theme on the page now, for drawings that need its values. */
export function useTheme(): ThemeName {
  return useSyncExternalStore((listener) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  }, keptTheme);
}
