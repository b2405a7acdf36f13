import { tick } from '../clock.ts';
import type { Draft, Entry } from '../entry.ts';
import { type Place, seal } from '../seal.ts';
import type { Random } from './random.ts';

/** Drafts of an invented campaign at the invented Ceredin Saddle, for tests. */
export function inventedDraft(id: string, more: Partial<Draft> = {}): Draft {
  const body = { hole: 'CER-A', readings: { length: '87,5 cm', note: `about ${id}` } };
  return {
    id,
    kind: 'piece.logged',
    version: 1,
    observedAt: '2031-01-14T09:00:00-03:00',
    by: 'kv',
    body,
    ...more,
  };
}

/** An entry of device "d", first of its chain, with what the test wants changed. */
export function inventedEntry(place: Partial<Place> = {}, draft: Partial<Draft> = {}): Entry {
  const sequence = place.sequence ?? 1;
  const device = place.device ?? 'd';
  const stamp = place.stamp ?? tick('000000000000000-000000', 1_926_000_000_000 + sequence);
  const salt = '000102030405060708090a0b0c0d0e0f';
  const full: Place = { campaign: 'c', device, sequence, previous: null, stamp, salt, ...place };
  return seal(inventedDraft(draft.id ?? `${device}-${sequence}`, draft), full);
}

/** A chain of `count` entries of one device, after `before`. */
export function inventedChain(
  device: string,
  count: number,
  before?: Entry,
  draft: Partial<Draft> = {},
): Entry[] {
  const chain: Entry[] = [];
  for (let last = before; chain.length < count; last = chain.at(-1)) {
    const sequence = (last?.header.sequence ?? 0) + 1;
    const id = `${device}-${sequence}-${draft.kind ?? ''}`;
    chain.push(inventedEntry({ device, sequence, previous: last?.hash ?? null }, { id, ...draft }));
  }
  return chain;
}

/** The same things in another order. */
export function shuffled<T>(list: readonly T[], random: Random): T[] {
  const mixed = [...list];
  for (let index = mixed.length - 1; index > 0; index -= 1) {
    const other = random.below(index + 1);
    [mixed[index], mixed[other]] = [mixed[other]!, mixed[index]!];
  }
  return mixed;
}
