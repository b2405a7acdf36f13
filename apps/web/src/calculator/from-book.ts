import type {
  CampaignView,
  DensityView,
  DepthView,
  HoleView,
  PieceView,
  ReadingView,
  ThingView,
} from '@firnbook/campaign';
import { standing } from '../screens/hole.ts';
import { initialsOf } from '../screens/people.ts';
import { fieldWords, nameHere } from '../texts/names.ts';
import { metres, moment, number } from '../texts/numbers.ts';
import { t } from '../texts/t.ts';
import { thingName } from '../texts/thing-name.ts';
import type { Offer } from './offer.ts';

/** The book as the calculator reads it. It writes nothing there. */
export interface OpenBook {
  readonly campaign: CampaignView;
  readonly hole: HoleView | null;
  /** Solved depths of that hole; null until they are there. */
  readonly depths: DepthView | null;
  /** Density of its core; null until it is computed. */
  readonly density: DensityView | null;
}

/** A reading of a thing that is not withdrawn. */
interface Read {
  readonly thing: ThingView;
  readonly reading: ReadingView;
}

/** The piece that was logged last, of those with a length. */
export function pieceJustLogged({ hole }: OpenBook): PieceView | undefined {
  const pieces = standing(hole?.runs ?? []).flatMap((run) => standing(run.pieces));
  return newest(
    pieces.filter((piece) => has(piece, 'length')),
    (piece) => piece.at,
  );
}

/** What a piece weighs, less what it lay in. */
export function pieceMass(book: OpenBook, piece: PieceView): Offer | undefined {
  const mass = readingOf(piece, 'mass');
  if (mass === undefined) return undefined;
  const tare = piece.readings.tare?.value ?? null;
  const offer = offerOf(book, mass, 'kg');
  if (tare === null) return offer;
  return { ...offer, value: offer.value - tare, says: t('calc.from.less.tare', { says: offer.says }) };
}

const diameters = ['diameterTop', 'diameterMiddle', 'diameterBottom'] as const;

/** Mean of what the caliper read on the piece; what the cutters leave where it read nothing. */
export function coreDiameter(book: OpenBook, piece: PieceView | undefined): Offer | undefined {
  const read = diameters.flatMap((field) => (piece ? (readingOf(piece, field) ?? []) : []));
  if (read.length === 0) return fromSetUp(book, 'coreDiameter');
  const offers = read.map((one) => offerOf(book, one, 'm'));
  if (offers.length === 1) return offers[0];
  const value = offers.reduce((sum, offer) => sum + offer.value, 0) / offers.length;
  return {
    value,
    unit: 'm',
    says: t('calc.from.mean', { count: offers.length, name: nameHere(piece!), ...byWhom(book, read[0]!) }),
  };
}

/** The length that a set-up of the drill says, by the newest one. */
export function fromSetUp(book: OpenBook, field: 'coreDiameter' | 'holeDiameter'): Offer | undefined {
  const setUp = newest(
    standing(book.campaign.others['set-up'] ?? []).filter((one) => has(one, field)),
    (one) => one.at,
  );
  return setUp === undefined
    ? undefined
    : offerOf(book, { thing: setUp, reading: setUp.readings[field]! }, 'm');
}

/** The words of the newest set-up about its cable; undefined where it says nothing. */
export function cableWords(book: OpenBook): string | undefined {
  const setUp = newest(
    standing(book.campaign.others['set-up'] ?? []).filter((one) => one.readings.cable !== undefined),
    (one) => one.at,
  );
  return setUp === undefined
    ? undefined
    : t('calc.from.cable', { name: nameHere(setUp), cable: setUp.readings.cable!.text });
}

/** How deep the hole being drilled is: solved, or by the counter until it is. */
export function holeDepth(book: OpenBook): Offer | undefined {
  const { hole, depths } = book;
  if (hole === null) return undefined;
  const bottom = depths?.holeBottom ?? null;
  if (bottom !== null)
    return {
      value: bottom.value,
      sd: bottom.sd,
      unit: 'm',
      says: t('calc.from.solved', { letter: hole.letter }),
    };
  return counterDepth(book);
}

/** What the counter read at the end of the last run. */
export function counterDepth(book: OpenBook): Offer | undefined {
  const run = standing(book.hole?.runs ?? []).findLast((one) => has(one, 'to'));
  return run === undefined ? undefined : offerOf(book, { thing: run, reading: run.readings.to! }, 'm');
}

/** Of all that lies above the bottom of the weighed core. */
export function meanDensity({ hole, density }: OpenBook): Offer | undefined {
  const bottom = density?.water.at(-1);
  if (hole === null || density === null || bottom === undefined || !(bottom.depth > 0)) return undefined;
  return {
    value: (1000 * bottom.value) / bottom.depth,
    sd: (1000 * Math.hypot(bottom.randomSd, bottom.sharedSd)) / bottom.depth,
    unit: 'kg/m3',
    says: t('calc.from.weighed', {
      letter: hole.letter,
      depth: metres(bottom.depth),
      share: number(density.weighed * 100, 0),
    }),
  };
}

/** The core's temperature as it was measured last, in a run or in a piece. */
export function coreTemperature(book: OpenBook): Offer | undefined {
  const runs = standing(book.hole?.runs ?? []);
  return newestReading(book, [...runs, ...runs.flatMap((run) => standing(run.pieces))], 'temperature', 'Cel');
}

export const airTemperature = (book: OpenBook): Offer | undefined =>
  newestReading(book, standing(book.campaign.others.weather ?? []), 'temperature', 'Cel');

/** What is known of the place as a whole. */
export function fromSite(
  book: OpenBook,
  field: 'temperature' | 'accumulation' | 'surfaceDensity',
  unit: string,
): Offer | undefined {
  return newestReading(book, standing(book.campaign.others.site ?? []), field, unit);
}

/** A reading of a piece or run with its number in the unit of its field. */
export function readingOffer(
  book: OpenBook,
  thing: ThingView | undefined,
  field: string,
  unit: string,
): Offer | undefined {
  const read = thing === undefined ? undefined : readingOf(thing, field);
  return read === undefined ? undefined : offerOf(book, read, unit);
}

function newestReading(
  book: OpenBook,
  things: readonly ThingView[],
  field: string,
  unit: string,
): Offer | undefined {
  const read = newest(
    things.flatMap((thing) => readingOf(thing, field) ?? []),
    ({ reading }) => reading.at,
  );
  return read === undefined ? undefined : offerOf(book, read, unit);
}

const has = (thing: ThingView, field: string): boolean => typeof thing.readings[field]?.value === 'number';

const readingOf = (thing: ThingView, field: string): Read | undefined =>
  has(thing, field) ? { thing, reading: thing.readings[field]! } : undefined;

/** The last of those that were told last. */
function newest<T>(all: readonly T[], at: (one: T) => string): T | undefined {
  return all.reduce<T | undefined>(
    (best, one) => (best === undefined || Date.parse(at(one)) >= Date.parse(at(best)) ? one : best),
    undefined,
  );
}

function offerOf(book: OpenBook, read: Read, unit: string): Offer {
  const { thing, reading } = read;
  return {
    value: reading.value!,
    unit,
    says: t('calc.from.reading', {
      name: thingName(thing),
      field: fieldWords(thing.kind, reading.field),
      ...byWhom(book, read),
    }),
  };
}

const byWhom = ({ campaign }: OpenBook, { reading }: Read) => ({
  by: initialsOf(campaign, reading.by),
  at: moment(reading.at),
});
