const TIME =
  /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.\d{1,9})?)?(?:Z|([+-])(\d{2}):(\d{2}))$/i;

/**
 * A moment with date, time of day and offset, as RFC 3339 (the profile of ISO 8601 for the Internet) writes it;
 * seconds may be left out. The text as it is kept, with "T" and "Z"; null for anything else, a day that no month has
 * too. A time without its offset is none: nobody could tell later which clock it was.
 */
export function readTime(text: string): string | null {
  const parts = TIME.exec(text);
  if (parts === null) return null;
  const [year, month, day, hour, minute, second, , offsetHour, offsetMinute] = parts
    .slice(1)
    .map((part) => (part === undefined ? 0 : Number(part))) as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  if (month < 1 || month > 12 || day < 1 || day > daysIn(year, month)) return null;
  if (hour > 23 || minute > 59 || second > 59 || offsetHour > 23 || offsetMinute > 59) return null;
  return text.replace(' ', 'T').toUpperCase();
}

function daysIn(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}
