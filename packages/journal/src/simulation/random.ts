/** A seeded source of chance: the same seed gives the same history, on every machine. */
export interface Random {
  /** 0 <= x < 1 */
  readonly next: () => number;
  /** Whole number from 0 to count - 1. */
  readonly below: (count: number) => number;
  readonly chance: (probability: number) => boolean;
  /** @throws RangeError for an empty list */
  readonly pick: <T>(list: readonly T[]) => T;
  readonly bytes: (length: number) => Uint8Array;
}

/**
 * Marsaglia's xorshift with 32 bits of state, shifts 13, 17, 5 (Xorshift RNGs, Journal of Statistical Software
 * 8(14), 2003). Good enough to wander through histories, not for secrets.
 */
export function seededRandom(seed: number): Random {
  // Neighbouring seeds are spread over the state space first; zero is the one state it cannot leave.
  let state = Math.imul(seed + 1, 0x9e3779b1) | 0 || 1;

  function word(): number {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  }
  for (let warm = 0; warm < 8; warm += 1) word();

  const next = () => word() / 2 ** 32;
  const below = (count: number) => Math.floor(next() * count);
  return {
    next,
    below,
    chance: (probability) => next() < probability,
    pick(list) {
      if (list.length === 0) throw new RangeError('Nothing to pick from.');
      return list[below(list.length)]!;
    },
    bytes: (length) => Uint8Array.from({ length }, () => word() & 255),
  };
}
