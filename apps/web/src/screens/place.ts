import type { HoleView } from '@firnbook/campaign';
import type { BookHandle } from '../device/book.ts';

/** Places that this version can do, in the order of the work. */
export const places = ['drill', 'log', 'core'] as const;
export type Place = (typeof places)[number];

/** What every place works on. */
export interface PlaceProps {
  readonly book: BookHandle;
  readonly hole: HoleView;
}
