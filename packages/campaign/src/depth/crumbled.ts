import type { Judged } from '@firnbook/science/depth';
import { numberIn, textIn } from '../thing-view.ts';
import type { PieceView } from '../view.ts';
import { usable } from './usable.ts';

/** Mass per metre of the pieces that have both, by their place in the core. */
export interface MassPerMetre {
  /** Place of each piece in the order of the core. */
  readonly places: ReadonlyMap<string, number>;
  readonly known: readonly { readonly place: number; readonly value: number }[];
}

/** Measured neighbours that a crumbled piece is held against, at most; fewer than this say too little. */
const NEIGHBOURS = 8;
const FEWEST = 3;
/** Chips and crumbs that nobody swept up: at least this share stays unknown. Common practice, no source. */
const SWEPT_SD = 0.05;
/** No barrel brings more, metres and kilograms: such a mass is no reading. */
const LONGEST = 6;
const HEAVIEST = 100;

/** @param pieces in the order of the core */
export function massPerMetre(pieces: readonly PieceView[]): MassPerMetre {
  const places = new Map(pieces.map((piece, place) => [piece.id, place]));
  const known = pieces.flatMap((piece, place) => {
    const length = numberIn(piece, 'length');
    const mass = netMass(piece);
    const ice = textIn(piece, 'ice');
    const isWhole = ice === '' || ice === 'in place';
    return length !== null && length > 0.03 && mass !== null && mass > 0 && isWhole
      ? [{ place, value: mass / length }]
      : [];
  });
  return { places, known };
}

/** Mass without what it lay in, kilograms; null where no balance shows it. */
export function netMass(piece: PieceView): number | null {
  const mass = usable(piece, 'mass', 0, HEAVIEST);
  return mass === null ? null : mass - (usable(piece, 'tare', 0, HEAVIEST) ?? 0);
}

/**
 * Length that crumbled core had: its mass over the mass per metre of the measured pieces nearest to it, which have the
 * same density and the same cutters. Null without a mass or with fewer than three such neighbours.
 */
export function crumbledLength(piece: PieceView, { places, known }: MassPerMetre): Judged | null {
  const mass = netMass(piece);
  const place = places.get(piece.id);
  if (mass === null || mass <= 0 || place === undefined || known.length < FEWEST) return null;
  const near = [...known]
    .sort((a, b) => Math.abs(a.place - place) - Math.abs(b.place - place))
    .slice(0, NEIGHBOURS)
    .map((one) => one.value)
    .sort((a, b) => a - b);
  const median = near[near.length >> 1]!;
  const deviations = near.map((one) => Math.abs(one - median)).sort((a, b) => a - b);
  // 1.4826 median absolute deviations are a standard deviation of a normal distribution; one odd mass teaches nothing.
  const spread = (1.4826 * deviations[deviations.length >> 1]!) / median;
  const value = mass / median;
  return value > LONGEST ? null : { value, sd: value * Math.hypot(spread, SWEPT_SD) };
}
