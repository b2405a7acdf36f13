/** What stands between cells. A blank means a table set in columns. Null: every line is one cell. */
export type Separator = '\t' | ';' | ',' | '|' | ' ';

const candidates = ['\t', ';', ',', '|'] as const;
/** What commas that may be of numbers and sentences count less. */
const weakness = 0.1;
/** What one more cut is worth. */
const perCut = 0.02;
/** Lines with content that are looked at. */
const sample = 400;
/** And characters. */
const sampleText = 2 ** 18;
/** Share of the lines that must be cut alike before a table is believed to be set in columns. */
const mostLines = 0.9;
/** One line of prose is cut evenly by its blanks; so many lines are not. */
const fewest = 3;

/**
 * The separator of a text of unknown shape: titles above, several tables, decimal commas. It is the one that cuts
 * most lines, and cuts them into the same number of cells; where two do so alike, tab, semicolon, comma, bar in this
 * order, since a decimal comma cuts evenly too. "sep=;" in the first line, as spreadsheet programs write it, is
 * believed.
 */
export const findSeparator = (text: string): Separator | null => {
  const said = /^sep=([\t;,|])\n/i.exec(text);
  if (said !== null) return said[1] as Separator;
  const lines = firstLines(text);
  let best: { readonly separator: Separator; readonly found: Evenness } | null = null;
  for (const separator of candidates) {
    const found = scoreOf(lines, separator);
    if (found.score > (best?.found.score ?? 0) + 1e-9) best = { separator, found };
  }
  // decimal commas cut every line but the heading of a table that is set in columns
  const words = evenness(lines.map((line) => line.trim().split(/\s+/).length - 1)).even;
  const isSet = lines.length >= fewest && words >= mostLines && !lines.some((line) => line.includes('"'));
  if (isSet && words > (best?.found.even ?? 0) + 0.05) return ' ';
  return best?.separator ?? null;
};

interface Evenness {
  /** From 0 to 1. */
  readonly even: number;
  /** The same, with what more cuts in a line are worth. */
  readonly score: number;
}

/** Physical lines that one quoted cell may take here. */
const quotedLines = 300;

/** Lines with content; those that a quoted cell runs through are one. */
const firstLines = (text: string): readonly string[] => {
  const physical = text.slice(0, sampleText).split('\n');
  const lines: string[] = [];
  for (let i = 0; i < physical.length && lines.length < sample; i++) {
    let line = physical[i]!;
    if (line.trim() === '' || line.startsWith('#')) continue;
    if (isOpen(line)) {
      const end = closedIn(physical, i);
      if (end > 0) {
        line = physical.slice(i, end + 1).join(' ');
        i = end;
      }
    }
    lines.push(line);
  }
  return lines;
};

/** The line in which a cell that is open at the end of another is closed: the first with an odd number of marks. */
const closedIn = (physical: readonly string[], opened: number): number => {
  for (let i = opened + 1; i <= Math.min(physical.length - 1, opened + quotedLines); i++)
    if (physical[i]!.split('"').length % 2 === 0) return i;
  return -1;
};

/** Whether a quotation mark opens a cell of the line and none closes it. One inside a word (an inch) opens nothing. */
const isOpen = (line: string): boolean => {
  let isQuoted = false;
  for (let i = 0; i < line.length; i++)
    if (line[i] === '"' && (isQuoted || opensCell(line, i))) isQuoted = !isQuoted;
  return isQuoted;
};

const opensCell = (line: string, at: number): boolean => at === 0 || /[\t;,|"]/.test(line[at - 1]!);

/**
 * How evenly a separator cuts the lines. Commas are looked at twice: with those between two digits or before a blank,
 * which may be of numbers and sentences, and, a little better where it comes out as even, without.
 */
const scoreOf = (lines: readonly string[], separator: string): Evenness => {
  const all = evenness(lines.map((line) => cuts(line, separator, false)));
  if (separator !== ',') return all;
  const strict = evenness(lines.map((line) => cuts(line, separator, true)));
  const weak = { even: all.even - weakness, score: all.score - weakness };
  return weak.score > strict.score ? weak : strict;
};

/** How often a separator cuts a line, outside of quotation marks. */
const cuts = (line: string, separator: string, isStrict: boolean): number => {
  const isWeak = isStrict && /[\t;|]/.test(line);
  let count = 0;
  let isQuoted = false;
  for (let i = 0; i < line.length; i++) {
    if (line[i] === '"' && (isQuoted || opensCell(line, i))) isQuoted = !isQuoted;
    else if (line[i] === separator && !isQuoted && !(isWeak && isOfText(line, i))) count += 1;
  }
  return count;
};

/** Whether a comma stands between two digits or before a blank. */
const isOfText = (line: string, at: number): boolean =>
  line[at + 1] === ' ' || /^\d,\d$/.test(line.slice(Math.max(0, at - 1), at + 2));

/**
 * Share of the lines that are cut into one of the two usual numbers of cells: two, so that a file with two tables
 * of different width is even. Lines that are not cut are titles; they count half against. A separator that cuts a
 * line often is a little better than one that cuts it once.
 */
const evenness = (counts: readonly number[]): Evenness => {
  const often = new Map<number, number>();
  for (const count of counts) if (count > 0) often.set(count, (often.get(count) ?? 0) + 1);
  const [[usual, first] = [0, 0], [, second] = [0, 0]] = [...often].sort((a, b) => b[1] - a[1]);
  const uncut = counts.filter((count) => count === 0).length;
  const cut = counts.length - uncut;
  const even = cut === 0 ? 0 : (first + second / 2) / (cut + uncut / 2);
  return { even, score: even + perCut * Math.min(usual, 10) };
};
