/** Which day a workbook counts from: 1900 where nothing is said, 1904 as the first Macintosh versions did. */
export type DateSystem = 1900 | 1904;

const DAY = 86_400_000;
/** Serial 25569 is 1970-01-01 in the 1900 system; the 1904 system starts 1,462 days later. */
const EPOCH = 25_569;
const LATER = 1_462;
/** 9999-12-31, the last day that a serial may name. */
const LAST = 2_958_465;

/**
 * Day and time that a serial number stands for (ECMA-376 part 1, 18.17.4.1), to the second.
 *
 * The 1900 system holds a day that never was, 29 February 1900 (serial 60); serials below it are one day on from
 * what the later ones would give. Serial 60 itself, and anything before 1900 or after 9999, is no date.
 *
 * @returns ISO 8601 without offset: "2026-06-14", "2026-06-14T08:30:00", or "08:30:00" for less than a day
 */
export const dateOfSerial = (
  serial: number,
  system: DateSystem,
): { readonly as: 'date' | 'time'; readonly text: string } | null => {
  if (!Number.isFinite(serial) || serial < 0) return null;
  const seconds = Math.round((serial % 1) * 86_400);
  let day = Math.floor(serial) + (seconds === 86_400 ? 1 : 0);
  const time = timeOf(seconds % 86_400);
  if (day === 0 && system === 1900) return { as: 'time', text: time };
  if (system === 1904) day += LATER;
  else if (day === 60) return null;
  else if (day < 60) day += 1;
  if (day > LAST) return null;
  const date = new Date((day - EPOCH) * DAY).toISOString().slice(0, 10);
  return { as: 'date', text: seconds % 86_400 === 0 ? date : `${date}T${time}` };
};

const timeOf = (seconds: number): string =>
  [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60]
    .map((part) => String(part).padStart(2, '0'))
    .join(':');

/** Built-in number formats that show a day or a time (ECMA-376 part 1, 18.8.30, with the East Asian ones). */
const builtIn = new Set([
  14, 15, 16, 17, 18, 19, 20, 21, 22, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 45, 46, 47, 50, 51, 52, 53, 54,
  55, 56, 57, 58,
]);

/** Built-in formats of per cent. */
const builtInShares = new Set([9, 10]);

/** What a cell's number format makes of its number. */
export type Shown = 'number' | 'date' | 'per cent';

/**
 * A number format shows a day or a time where one of the letters y m d h s stands outside of quotes and brackets,
 * and a hundredfold where a per cent sign does.
 */
export const shownAs = (id: number, code: string | undefined): Shown => {
  if (code === undefined) return builtIn.has(id) ? 'date' : builtInShares.has(id) ? 'per cent' : 'number';
  const bare = code
    .replace(/"[^"]*"/g, '')
    .replace(/\\./g, '')
    .replace(/_./g, '')
    .replace(/\[(?!h+\]|m+\]|s+\])[^\]]*\]/gi, '')
    .split(';')[0]!;
  if (bare.includes('%')) return 'per cent';
  return /[ymdhs]/i.test(bare) && !/general/i.test(bare) ? 'date' : 'number';
};
