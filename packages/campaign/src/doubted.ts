import type { Readings } from './command.ts';
import type { Kind } from './kind.ts';
import { fieldOf } from './kinds.ts';
import { readReading } from './reading.ts';
import type { CampaignView, HoleView, ThingView } from './view.ts';

/** What somebody is about to say, looked at before it is written. */
export interface Doubted {
  readonly kind: Kind;
  readonly campaign: CampaignView;
  readonly hole: HoleView | null;
  /** The thing as it stands; null for a new one. */
  readonly thing: ThingView | null;
  /** All of the thing's readings as they will be, readable every one. */
  readonly readings: Readings;
  /** The fields that are said now. */
  readonly said: readonly string[];
}

/** The number a field will say, in the base unit of its dimension; null where it says none. */
export function valueIn({ kind, readings }: Doubted, name: string): number | null {
  const field = fieldOf(kind, name);
  if (field === undefined || !Object.hasOwn(readings, name)) return null;
  const read = readReading(readings[name]!, field, kind);
  return read.ok ? read.reading.value : null;
}
