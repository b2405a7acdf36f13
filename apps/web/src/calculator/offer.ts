/** A value that stands in a field without being typed, and where it comes from. */
export interface Offer {
  readonly value: number;
  /** One standard deviation, in the same unit. */
  readonly sd?: number;
  /** A code of the science room's units. */
  readonly unit: string;
  /** "Mass of B-P034.2: HN, June 14 at 11:42". */
  readonly says: string;
}

/** By the name of the quantity that a relation takes. */
export type Offers = Readonly<Record<string, Offer | undefined>>;
