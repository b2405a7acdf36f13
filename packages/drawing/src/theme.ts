import type { ColourName } from './shape.ts';

export type ThemeName = 'standard' | 'sun' | 'night';

/** The one place where colours are written. A theme is a value for every colour name, and how heavy its lines are. */
export interface Theme {
  readonly name: ThemeName;
  /** Six-digit hexadecimal sRGB, with its '#'. */
  readonly colours: Readonly<Record<ColourName, string>>;
  /** Factor on every stroke's width: glare eats thin lines. */
  readonly stroke: number;
  /** What the browser should do with its own controls. */
  readonly scheme: 'light' | 'dark';
}

const standard: Theme = {
  name: 'standard',
  scheme: 'light',
  stroke: 1,
  colours: {
    paper: '#f6f8f9',
    sheet: '#ffffff',
    ink: '#14222e',
    'ink-2': '#455763',
    line: '#cfd8de',
    ice: '#cfe3ee',
    'ice-lit': '#f3f9fc',
    'ice-edge': '#a3c3d5',
    bubble: '#7fa5b8',
    melt: '#8fc0dc',
    'melt-ink': '#2f6f97',
    dust: '#8a6a3b',
    call: '#922f08',
    'call-bg': '#fdf0e8',
    act: '#0d4f7c',
    'act-ink': '#ffffff',
    ok: '#0b5c4b',
  },
};

/** Black on white for goggles and glare. */
const sun: Theme = {
  name: 'sun',
  scheme: 'light',
  stroke: 1.7,
  colours: {
    paper: '#ffffff',
    sheet: '#ffffff',
    ink: '#000000',
    'ink-2': '#222222',
    line: '#000000',
    ice: '#e3edf2',
    'ice-lit': '#ffffff',
    'ice-edge': '#b7c9d3',
    bubble: '#42586a',
    melt: '#5b9cc4',
    'melt-ink': '#003a5c',
    dust: '#5d3d07',
    call: '#9a2c00',
    'call-bg': '#ffffff',
    act: '#000000',
    'act-ink': '#ffffff',
    ok: '#004d3a',
  },
};

/** Red alone, so that eyes stay used to the dark. */
const night: Theme = {
  name: 'night',
  scheme: 'dark',
  stroke: 1,
  colours: {
    paper: '#150605',
    sheet: '#1c0908',
    ink: '#ff9a88',
    'ink-2': '#ee7d69',
    line: '#5a231c',
    ice: '#3a1410',
    'ice-lit': '#501e17',
    'ice-edge': '#2a0d0a',
    bubble: '#8a3f34',
    melt: '#742d22',
    'melt-ink': '#ff9a88',
    dust: '#d98a5a',
    call: '#ffb9a3',
    'call-bg': '#2b0f0c',
    act: '#f0806b',
    'act-ink': '#1c0908',
    ok: '#ff9a88',
  },
};

export const themes: Readonly<Record<ThemeName, Theme>> = { standard, sun, night };

export const colourNames: readonly ColourName[] = Object.keys(standard.colours) as ColourName[];

/** CSS custom properties of a theme by name ("--ink-2"), for a style sheet or a style attribute. */
export function themeVariables(theme: Theme): Readonly<Record<string, string>> {
  return {
    ...Object.fromEntries(colourNames.map((name) => [`--${name}`, theme.colours[name]])),
    '--stroke': String(theme.stroke),
    'color-scheme': theme.scheme,
  };
}

/** One rule per theme: `[data-theme="sun"]{--paper:#ffffff;...}`; the standard theme also stands on :root. */
export function themeStyleSheet(): string {
  return (Object.keys(themes) as ThemeName[])
    .map((name) => {
      const body = Object.entries(themeVariables(themes[name]))
        .map(([key, value]) => `${key}:${value}`)
        .join(';');
      return `${name === 'standard' ? ':root,' : ''}[data-theme="${name}"]{${body}}`;
    })
    .join('\n');
}
