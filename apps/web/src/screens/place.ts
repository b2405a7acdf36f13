import type { HoleView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';
import { keep, recall } from '../device/kept.ts';

/** Places that this version can do: what is asked of people first, then in the order of the work. */
export const places = ['today', 'drill', 'log', 'core', 'camp'] as const;
export type Place = (typeof places)[number];

/** What is looked at in the core's place besides the core itself. */
export const coreViews = ['core', 'scales', 'readings', 'zeros', 'versions'] as const;
export type CoreView = (typeof coreViews)[number];

/** Work that is opened from the camp's place and has an address of its own. */
const pages = ['import', 'people'] as const;
export type Page = (typeof pages)[number];

/** What every place works on. */
export interface PlaceProps {
  readonly book: BookHandle;
  readonly hole: HoleView;
}

/** The place and view that the last part of an address names; undefined where it names none. */
export function placeAt(
  named: string | undefined,
): { readonly place: Place; readonly view: CoreView; readonly page?: Page } | undefined {
  const place = places.find((one) => one === named);
  if (place !== undefined) return { place, view: 'core' };
  const page = pages.find((one) => one === named);
  if (page !== undefined) return { place: 'camp', view: 'core', page };
  const view = coreViews.find((one) => one === named);
  return view === undefined ? undefined : { place: 'core', view };
}

export const placeAddress = (campaign: string, letter: string, to: Place | CoreView | Page): string =>
  `/c/${campaign}/${letter}/${to}`;

/** The phone in the drill tent opens where it was: the hole and the place that this device last worked at. */
export function lastPlace(campaign: string): { readonly letter: string; readonly place: string } | null {
  const [letter, place] = recall(nameOf(campaign))?.split('/') ?? [];
  return letter === undefined || place === undefined ? null : { letter, place };
}

export function keepPlace(campaign: string, letter: string, place: Place | CoreView | Page): void {
  keep(nameOf(campaign), `${letter}/${place}`);
}

const nameOf = (campaign: string): string => `place.${campaign}`;
