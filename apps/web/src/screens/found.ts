import { confirmationOf, type DepthView, type HoleView, type ThingView, thingsOf } from '@firnbook/campaign';
import type { Finding, Slip } from '@firnbook/science/depth';
import { fieldWords, nameHere } from '../texts/names.ts';
import { shortLength } from '../texts/numbers.ts';
import { type TextKey, t } from '../texts/t.ts';
import { readingWords } from './reading-text.tsx';

/** A reading that does not fit, and whose it is. */
export interface Found {
  readonly key: string;
  readonly finding: Finding;
  readonly thing: ThingView;
}

/** Which of a hole's findings are meant. */
export interface FoundWhere {
  /** Only findings on these things; on the whole hole where it is left out. */
  readonly things?: readonly string[] | undefined;
  /** Things whose findings stand elsewhere on the screen. */
  readonly elsewhere?: readonly string[] | undefined;
  /** Fields of one thing that are asked about already. */
  readonly except?: { readonly thing: string; readonly fields: readonly string[] } | undefined;
}

/** Those that still ask, the newest ice first. */
export const askedIn = (hole: HoleView, depths: DepthView | undefined, where: FoundWhere = {}) =>
  foundIn(hole, depths?.findings ?? [], where);

/** Those that a person has answered with "it is right as it stands", each with the thing that says so. */
export const confirmedIn = (hole: HoleView, depths: DepthView | undefined, where: FoundWhere = {}) =>
  foundIn(hole, depths?.confirmed ?? [], where).map((one) => ({
    ...one,
    confirmation: confirmationOf(hole, one.finding),
  }));

function foundIn(hole: HoleView, findings: readonly Finding[], where: FoundWhere): readonly Found[] {
  if (findings.length === 0) return [];
  const { known, places } = thingsIn(hole);
  return findings
    .flatMap((finding): readonly (Found & { readonly place: number })[] => {
      const place = places.get(finding.which) ?? -1;
      const thing = known[place];
      if (!thing || thing.withdrawn) return [];
      if (where.things !== undefined && !where.things.includes(thing.id)) return [];
      if (where.elsewhere?.includes(thing.id)) return [];
      if (thing.id === where.except?.thing && where.except.fields.includes(finding.field)) return [];
      const entry = thing.readings[finding.field]?.entry ?? '';
      return [{ key: `${finding.which} ${finding.field} ${entry}`, finding, thing, place }];
    })
    .sort((a, b) => b.place - a.place);
}

interface ThingsIn {
  readonly known: readonly ThingView[];
  readonly places: ReadonlyMap<string, number>;
}

/** Of each view of a hole: several lists of one screen ask for them, at every key that is pressed. */
const listed = new WeakMap<HoleView, ThingsIn>();

function thingsIn(hole: HoleView): ThingsIn {
  let things = listed.get(hole);
  if (things === undefined) {
    const known = thingsOf(hole);
    things = { known, places: new Map(known.map((thing, index) => [thing.id, index])) };
    listed.set(hole, things);
  }
  return things;
}

export const slipTexts: Readonly<Record<Slip, TextKey>> = {
  '10 cm': 'slip.10cm',
  '1 m': 'slip.1m',
  'swapped digits': 'slip.swapped',
  'missing piece': 'slip.missing',
  'doubled piece': 'slip.doubled',
  'zero changed': 'slip.zero',
  'lost ice not logged': 'slip.lost',
  'run attributed wrongly': 'slip.run',
  'no known slip': 'slip.none',
};

/** Ice that nobody logged as lost: the reading that is missing has no text. */
export const isGap = ({ field }: Finding): boolean => field === 'topBreak';

/** "The length of B-P031.1 reads 96.3 cm: 10 cm more than everything else says." */
export function foundWords({ finding, thing }: Found): string {
  const size = shortLength(Math.abs(finding.size));
  const name = nameHere(thing);
  if (isGap(finding)) return t('finding.gap', { name, size });
  const text = thing.readings[finding.field]?.text;
  if (text === undefined) return t('finding.off', { name, size });
  return t(finding.size > 0 ? 'finding.long' : 'finding.short', {
    name,
    field: fieldWords(thing.kind, finding.field),
    text: readingWords(thing.kind, finding.field, text),
    size,
  });
}
