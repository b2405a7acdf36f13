import { numberIn } from '../thing-view.ts';
import type { ThingView } from '../view.ts';

/** No hole in ice on Earth reaches it; a number beyond is no reading. */
const DEEPEST = 10_000;

/** The number that a field says, where a solver can use it: finite, not below `least`, no deeper than any hole. */
export function usable(thing: ThingView, field: string, least: number, most = DEEPEST): number | null {
  const value = numberIn(thing, field);
  return value !== null && value >= least && value <= most ? value : null;
}

/** Coldest ice that anybody cored, with room to spare, degrees Celsius. */
const COLDEST = -100;

/** Of ice: what is warmer than melting is no reading. */
export const usableTemperature = (thing: ThingView, field: string): number | null =>
  usable(thing, field, COLDEST, 0);
