import { depthDecimals, spread } from '@firnbook/drawing';

/** Numbers and dates as the reader of the screen writes them. Exports and the record never pass through here. */

/** The reader's locale; undefined lets the browser choose. */
export function number(value: number, decimals: number, locale?: string): string {
  return numbersWith(decimals, locale)
    .format(value)
    .replace(/^-(?=[0.,]*$)/, '');
}

/** Making a formatter takes a hundred times as long as using it, and a screen writes thousands of numbers. */
const numbersWith = made(
  (decimals: number, locale?: string) =>
    new Intl.NumberFormat(locale, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      useGrouping: false,
    }),
);

const momentsIn = made(
  (_: string, locale?: string) =>
    new Intl.DateTimeFormat(locale, {
      day: 'numeric',
      month: 'long',
      hour: '2-digit',
      minute: '2-digit',
      hourCycle: 'h23',
      timeZone: 'UTC',
    }),
);

const daysIn = made(
  (_: string, locale?: string) =>
    new Intl.DateTimeFormat(locale, { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' }),
);

/** Each formatter is made once. */
function made<Kind, Format>(make: (kind: Kind, locale?: string) => Format) {
  const known = new Map<string, Format>();
  return (kind: Kind, locale?: string): Format => {
    const name = `${kind} ${locale}`;
    let format = known.get(name);
    if (format === undefined) known.set(name, (format = make(kind, locale)));
    return format;
  };
}

/** Thin steps between number and unit, so that a line never breaks between them. */
const joint = '\u00a0';

export interface Uncertain {
  /** Metres. */
  readonly value: number;
  /** Metres, one standard deviation. */
  readonly sd: number;
}

/** The two halves of a depth: "29.48" and "m ± 3 cm"; decimals follow the uncertainty, as in the drawings. */
export function depthParts(
  depth: Uncertain,
  locale?: string,
): { readonly figure: string; readonly rest: string } {
  const sd = spread(depth.sd, (value, decimals) => number(value, decimals, locale));
  return {
    figure: number(depth.value, depthDecimals(depth.sd), locale),
    rest: `m${joint}±${joint}${sd.replace(' ', joint)}`,
  };
}

/** "29.48 m ± 3 cm". */
export function depth(value: Uncertain, locale?: string): string {
  const { figure, rest } = depthParts(value, locale);
  return `${figure}${joint}${rest}`;
}

/** A short length in the unit that a bench uses: "3 cm", "42.6 cm", "4 mm". Metres in. */
export function shortLength(metres: number, locale?: string): string {
  const size = Math.abs(metres);
  if (size < 0.00995) return `${number(metres * 1000, 0, locale)}${joint}mm`;
  const centimetres = metres * 100;
  const whole = Math.abs(centimetres - Math.round(centimetres)) < 0.05;
  return `${number(centimetres, whole ? 0 : 1, locale)}${joint}cm`;
}

/** A length in metres to the centimetre: "0.97 m". */
export function metres(value: number, locale?: string): string {
  return `${number(value, 2, locale)}${joint}m`;
}

/** Time of day and day of a moment of the record, in the time that the person said it in (J7). */
export function moment(iso: string, locale?: string): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})/.exec(iso);
  if (!parts) return iso;
  const [, year, month, day, hour, minute] = parts.map(Number) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return momentsIn('moment', locale).format(Date.UTC(year, month - 1, day, hour, minute));
}

/** A day of the record, YYYY-MM-DD: "16 June 2026". */
export function day(iso: string, locale?: string): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  if (!parts) return iso;
  return daysIn('day', locale).format(Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3])));
}
