import {
  type CampaignView,
  type Field,
  type HoleView,
  type Kind,
  type ReadingView,
  readReading,
  type ThingView,
  thingsOf,
} from '@firnbook/campaign';
import { keyFields } from './fields.ts';
import type { LoggedRow } from './rows-to-log.ts';

/** A reading where book and file differ. */
export interface Difference {
  readonly field: string;
  readonly there: string;
  readonly here: string;
}

/** What the book already has of a row. */
interface Found {
  readonly thing: ThingView;
  /** Readings that the thing has none of yet. */
  readonly lacking: readonly string[];
  readonly differences: readonly Difference[];
}

/** Looks rows up in the book, each thing for one row. */
type Comparison = (row: LoggedRow) => Found | null;

/**
 * Compares rows with what is in the book. A thing with a number (a run, a piece of a run) is the one of that number;
 * one without (a sounding) is the one that says the same of the same time, and as many rows say it as there are such
 * things; else, of those that came from the same file, one of that time that hangs on the same run. A reading that somebody has struck since
 * counts as said: importing again does not bring it back.
 *
 * @param isOwn whether a thing came from an earlier version of the same file
 * @param rows all of them: what some of them say cannot be the older version of another
 */
export const compareWith = (
  campaign: CampaignView,
  hole: HoleView | null,
  rows: readonly LoggedRow[],
  isOwn: (thing: ThingView) => boolean,
): Comparison => {
  const things = [
    ...campaign.people,
    ...Object.values(campaign.others).flat(),
    ...(hole === null ? [] : thingsOf(hole)),
  ];
  const names = new Map<string, string>();
  for (const { id, letter } of campaign.holes) names.set(`hole|${letter.toLowerCase()}`, id);
  for (const { id, kind, name, aliases, readings, withdrawn } of [...things, ...campaign.holes]) {
    if (withdrawn !== null) continue;
    const number = readings.number?.value ?? null;
    const called = [id, name, ...aliases, ...(kind === 'run' && number !== null ? [String(number)] : [])];
    for (const one of called) {
      const key = `${kind}|${one.toLowerCase()}`;
      if (!names.has(key)) names.set(key, id);
    }
  }
  /** Id of the thing that a text names; the text itself where there is none. */
  const named = (field: Field, text: string): string => {
    if (field.quantity !== 'thing') return text;
    const kinds = typeof field.of === 'string' ? [field.of] : field.of;
    const keys = kinds.map((kind) => `${kind}|${text.toLowerCase()}`);
    return keys.map((key) => names.get(key)).find((id) => id !== undefined) ?? text;
  };
  const byKey = new Map<string, ThingView[]>();
  const keyOf = (kind: Kind, thing: ThingView): string =>
    [kind.kind, ...keyFields(kind).map(({ name }) => thing.readings[name]?.text ?? '')].join('|');
  const rowKey = (row: LoggedRow): string =>
    [row.kind.kind, ...keyFields(row.kind).map((field) => named(field, row.readings[field.name] ?? ''))].join(
      '|',
    );
  const kinds = new Map(rows.map(({ kind }) => [kind.kind, kind]));
  for (const thing of things) {
    const kind = kinds.get(thing.kind);
    if (kind === undefined) continue;
    const key = keyOf(kind, thing);
    byKey.set(key, [...(byKey.get(key) ?? []), thing]);
  }
  const called = new Map(things.map(({ id, name }) => [id, name]));
  const found = (row: LoggedRow, thing: ThingView): Found => compared(row, thing, named, called);
  const isSame = ({ lacking, differences }: Found): boolean => lacking.length + differences.length === 0;
  const taken = new Set<string>();
  const matches = new Map<LoggedRow, Found>();
  const take = (row: LoggedRow, one: Found): void => {
    taken.add(one.thing.id);
    matches.set(row, one);
  };
  for (const row of rows) {
    const candidates = byKey.get(rowKey(row)) ?? [];
    const isKeyed = keyFields(row.kind).length > 0;
    const all = candidates
      .filter((thing) => !taken.has(thing.id) && (isKeyed || isSeenThen(row, thing)))
      .map((thing) => found(row, thing));
    const best =
      all.find(isSame) ??
      (isKeyed ? (all.find(({ thing }) => thing.withdrawn === null) ?? all[0]) : undefined);
    if (best !== undefined) take(row, best);
  }
  for (const row of rows) {
    if (matches.has(row) || keyFields(row.kind).length > 0) continue;
    const parents = row.kind.fields.filter(({ quantity, required }) => quantity === 'thing' && required);
    if (parents.length === 0) continue;
    const older = (byKey.get(rowKey(row)) ?? []).find(
      (thing) =>
        !taken.has(thing.id) &&
        thing.withdrawn === null &&
        isOwn(thing) &&
        isSeenThen(row, thing) &&
        parents.every(
          (field) => thing.readings[field.name]?.text === named(field, row.readings[field.name] ?? ''),
        ),
    );
    if (older !== undefined) take(row, found(row, older));
  }
  return (row) => matches.get(row) ?? null;
};

/** To the minute where the row gives a moment, else on the same day: the weather is alike on many days. */
const isSeenThen = ({ at, exact }: LoggedRow, thing: ThingView): boolean =>
  exact === 'moment'
    ? Math.abs(Date.parse(at) - Date.parse(thing.at)) < 60_000
    : at.slice(0, 10) === thing.at.slice(0, 10);

const compared = (
  row: LoggedRow,
  thing: ThingView,
  named: (field: Field, text: string) => string,
  called: ReadonlyMap<string, string>,
): Found => {
  const lacking: string[] = [];
  const differences: Difference[] = [];
  for (const field of row.kind.fields) {
    if (!Object.hasOwn(row.readings, field.name)) continue;
    const here = row.readings[field.name]!;
    const there = Object.hasOwn(thing.readings, field.name) ? thing.readings[field.name]! : null;
    if (there === null) lacking.push(field.name);
    else if (
      ![there, ...there.struck, ...there.against].some((one) => says(row.kind, field, one, here, named))
    )
      differences.push({ field: field.name, there: called.get(there.text) ?? there.text, here });
  }
  return { thing, lacking, differences };
};

const says = (
  kind: Kind,
  field: Field,
  reading: Pick<ReadingView, 'text' | 'value'>,
  text: string,
  named: (field: Field, text: string) => string,
): boolean => {
  if (field.quantity === 'thing') return reading.text === named(field, text);
  const read = readReading(text, field, kind);
  if (!read.ok) return false;
  const { value, word } = read.reading;
  if (value === null || reading.value === null) return reading.text === (word ?? text);
  return Math.abs(value - reading.value) <= 1e-9 * Math.max(1, Math.abs(value));
};
