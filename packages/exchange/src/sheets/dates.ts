import { type Cell, textOf } from './cells.ts';

/** Which of day, month and year comes first in dates of three numbers. */
export type DateOrder = 'day first' | 'month first' | 'year first';

/** A day, and a time of day where the cell gives one, as written: nothing is added. */
export interface ReadDate {
  /** "2026-06-14"; null where the cell gives a time alone. */
  readonly day: string | null;
  /** "08:30:00"; null where the cell gives a day alone. */
  readonly time: string | null;
  /** "+05:45", "Z"; null where none is written. */
  readonly offset: string | null;
}

interface Parts {
  readonly numbers: readonly [string, string, string];
  /** The month where it is a word, 1 to 12, and which of the numbers stands for it. */
  readonly month: number | null;
  readonly time: string | null;
  readonly offset: string | null;
}

const clock = String.raw`(\d{1,2})[:.h](\d{2})(?:[:.](\d{2})(?:[.,]\d+)?)?\s*([ap]\.?m\.?)?\s*(Z|UTC|[+-]\d{2}:?\d{2})?`;
const timeAlone = new RegExp(`^${clock.replace('[:.h]', '[:h]')}$`, 'i');
const numeric = new RegExp(
  `^(\\d{1,4})([-./])\\s?(\\d{1,2})\\2\\s?(\\d{1,4})\\.?(?:[T,\\s]\\s*${clock})?$`,
  'i',
);
const worded = new RegExp(
  `^(?:\\p{L}{2,10}\\.?,?\\s+)?(?:(\\d{1,2})[.\\s-]+\\s*(\\p{L}{3,10})\\.?[\\s,-]+(\\d{2,4})|(\\p{L}{3,10})\\.?\\s+(\\d{1,2})(?:st|nd|rd|th)?,?\\s+(\\d{4}))(?:[T,\\s]\\s*${clock})?$`,
  'iu',
);
const packed = /^(\d{4})(\d{2})(\d{2})(?:[T ]?(\d{2}):?(\d{2})(?::?(\d{2}))?(Z|[+-]\d{2}:?\d{2})?)?$/;

/** Names of months as crews write them: from the platform's own tables (CLDR), whole and short. */
const monthWords = (() => {
  const words = new Map<string, number>();
  for (const locale of ['en', 'de', 'fr', 'es', 'it', 'pt', 'nb', 'da', 'sv', 'nl'])
    for (const style of ['long', 'short'] as const) {
      const name = new Intl.DateTimeFormat(locale, { month: style, timeZone: 'UTC' });
      for (let month = 0; month < 12; month++) {
        const word = plain(name.format(new Date(Date.UTC(2026, month, 15))));
        if (!words.has(word)) words.set(word, month + 1);
        if (!words.has(word.slice(0, 3))) words.set(word.slice(0, 3), month + 1);
      }
    }
  return words;
})();

function plain(word: string): string {
  return word
    .normalize('NFD')
    .replace(/[\p{M}.]/gu, '')
    .toLowerCase();
}

const timeOf = (parts: readonly (string | undefined)[]): string | null | undefined => {
  const [hour, minute, second = '00', half] = parts;
  if (hour === undefined || minute === undefined) return null;
  let hours = Number(hour);
  if (half !== undefined) {
    if (hours < 1 || hours > 12) return undefined;
    hours = (hours % 12) + (half.toLowerCase().startsWith('p') ? 12 : 0);
  }
  if (hours > 23 || Number(minute) > 59 || Number(second) > 59) return undefined;
  return `${String(hours).padStart(2, '0')}:${minute}:${second}`;
};

const offsetOf = (text: string | undefined): string | null => {
  if (text === undefined) return null;
  if (/^(?:z|utc)$/i.test(text)) return 'Z';
  return text.includes(':') ? text : `${text.slice(0, 3)}:${text.slice(3)}`;
};

const partsOf = (text: string): Parts | null => {
  const three = numeric.exec(text);
  if (three !== null) {
    const [, a, , b, c, ...rest] = three as unknown as [string, string, string, string, string];
    const time = timeOf(rest);
    if (time === undefined) return null;
    return { numbers: [a, b, c], month: null, time, offset: offsetOf((rest as readonly string[])[4]) };
  }
  const word = worded.exec(text);
  if (word === null) return null;
  const month = monthWords.get(plain(word[2] ?? word[4]!)) ?? null;
  const time = timeOf(word.slice(7));
  if (month === null || time === undefined) return null;
  return {
    numbers: [word[1] ?? word[5]!, String(month), word[3] ?? word[6]!],
    month,
    time,
    offset: offsetOf(word[11]),
  };
};

const lastDay = (year: number, month: number): number => new Date(Date.UTC(year, month, 0)).getUTCDate();

const dayIn = ([a, b, c]: Parts['numbers'], order: DateOrder): string | null => {
  const [year, month, day] =
    order === 'year first' ? [a, b, c] : order === 'day first' ? [c, b, a] : [c, a, b];
  if (year.length !== 4 && year.length !== 2) return null;
  if (month.length > 2 || day.length > 2) return null;
  const whole = year.length === 2 ? 2000 + Number(year) : Number(year);
  if (Number(month) < 1 || Number(month) > 12 || Number(day) < 1) return null;
  if (Number(day) > lastDay(whole, Number(month))) return null;
  return `${String(whole).padStart(4, '0')}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
};

/**
 * Orders in which a text can be read as a day; all of them where it is a time alone or names its month, none where
 * it is no date. A year of two digits is a year from 2000 on.
 */
const ordersOf = (text: string): readonly DateOrder[] => {
  const every: readonly DateOrder[] = ['year first', 'day first', 'month first'];
  if (packed.test(text)) return dayOfPacked(text) === null ? [] : every;
  const parts = partsOf(text);
  if (parts === null) return timeAlone.test(text) ? every : [];
  if (parts.month !== null) return dayIn(parts.numbers, 'day first') === null ? [] : every;
  if (parts.numbers[0].length === 4) return dayIn(parts.numbers, 'year first') === null ? [] : ['year first'];
  return every.filter(
    (order) =>
      dayIn(parts.numbers, order) !== null && (order !== 'year first' || parts.numbers[2].length < 3),
  );
};

const dayOfPacked = (text: string): string | null => {
  const match = packed.exec(text);
  if (match === null) return null;
  return dayIn([match[1]!, match[2]!, match[3]!], 'year first');
};

/** Whether a cell could be a date or a time of day. Bare eight digits count as a number unless somebody says so. */
export const isDateLike = (cell: Cell): boolean =>
  typeof cell === 'string'
    ? /\d/.test(cell) && !/^\d+$/.test(cell) && ordersOf(cell).length > 0
    : cell.as === 'date' || cell.as === 'time';

/** What all cells of a column say together about the order of their dates. */
export interface DateEvidence {
  /** Orders in which every date of the column can be read; none where they contradict each other. */
  readonly orders: readonly DateOrder[];
  /** Cells that are dates in some order. */
  readonly dates: number;
  /** Of these orders, those in which the days never run backwards. A hint for a question, no proof. */
  readonly running: readonly DateOrder[];
  /** One of the cells that can be read in two ways; null where there is none. */
  readonly example: string | null;
  /** Years of two digits were met. */
  readonly hasShortYears: boolean;
}

export const dateEvidence = (cells: Iterable<Cell>): DateEvidence => {
  const texts: string[] = [];
  for (const cell of cells) {
    if (typeof cell === 'string' ? cell !== '' : cell.as === 'date' || cell.as === 'time')
      texts.push(textOf(cell));
  }
  let orders: readonly DateOrder[] = ['year first', 'day first', 'month first'];
  let dates = 0;
  let example: string | null = null;
  let hasShortYears = false;
  const read: string[] = [];
  for (const text of texts) {
    const possible = ordersOf(text);
    if (possible.length === 0) continue;
    dates += 1;
    read.push(text);
    const isNumeric = numeric.test(text) && !/^\d{4}/.test(text);
    // a year of four digits in front says nothing about the other cells
    if (isNumeric) orders = orders.filter((order) => possible.includes(order));
    if (isNumeric && possible.length > 1) example ??= text;
    if (isNumeric && !/\d{4}/.test(text)) hasShortYears = true;
  }
  const running = orders.filter((order) => {
    const days = read.map((text) => readDate(text, order)?.day ?? null).filter((day) => day !== null);
    return days.every((day, i) => i === 0 || days[i - 1]! <= day);
  });
  return { orders, dates, running, example: orders.length > 1 ? example : null, hasShortYears };
};

/** Reads one cell in the column's order. @returns null for what is no date or time */
export const readDate = (cell: Cell, order: DateOrder | null): ReadDate | null => {
  if (typeof cell !== 'string' && cell.as !== 'date' && cell.as !== 'time') {
    // eight digits that a spreadsheet program took for a number
    if (cell.as !== 'number' || !/^\d{8}$/.test(cell.text)) return null;
  }
  const text = textOf(cell).trim();
  if (packed.test(text)) {
    const day = dayOfPacked(text);
    const match = packed.exec(text)!;
    const time = timeOf([match[4], match[5], match[6]]);
    return day === null || time === undefined ? null : { day, time, offset: offsetOf(match[7]) };
  }
  const alone = timeAlone.exec(text);
  if (alone !== null) {
    const time = timeOf(alone.slice(1));
    return time === null || time === undefined ? null : { day: null, time, offset: offsetOf(alone[5]) };
  }
  const parts = partsOf(text);
  if (parts === null) return null;
  const orders = ordersOf(text);
  const isYearFirst = parts.numbers[0].length === 4;
  const single = orders.length === 1 ? orders[0]! : null;
  const chosen = parts.month !== null ? 'day first' : isYearFirst ? 'year first' : (order ?? single);
  if (chosen === null || !orders.includes(chosen)) return null;
  const day = dayIn(parts.numbers, chosen);
  return day === null ? null : { day, time: parts.time, offset: parts.offset };
};
