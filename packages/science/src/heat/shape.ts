import type { Ratio } from '../units.ts';

/** A body in which heat flows in one direction: what its series is made of. L is half its thickness or its radius. */
export interface Shape {
  readonly name: 'slab' | 'cylinder' | 'sphere';
  /** 0 at an eigenvalue; different signs at both ends of its bracket. */
  readonly eigen: (zeta: number, biot: Ratio) => number;
  /** Between what the n-th eigenvalue lies, n from 1, whatever the Biot number. */
  readonly bracket: (n: number) => readonly [low: number, high: number];
  /** n-th eigenvalue with the surface held at the temperature outside: Biot number without limit. */
  readonly held: (n: number) => number;
  readonly coefficient: (zeta: number) => number;
  /** @param place 0 in the middle, 1 at the surface */
  readonly profile: (zeta: number, place: Ratio) => number;
  /** Mean of the profile over the body's volume. */
  readonly meanProfile: (zeta: number) => number;
}
