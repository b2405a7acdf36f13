import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { JumpableRandomGenerator } from 'pure-rand/types/JumpableRandomGenerator';

export { minimalStandard } from './minimal-standard.ts';

/** Draws from one seeded stream; the same seed gives the same numbers on every machine. */
export interface Random {
  /** 0 <= x < 1, 53 bits. */
  readonly uniform: () => number;
  /** Mean 0, variance 1. */
  readonly normal: () => number;
  /** Mean 1. */
  readonly exponential: () => number;
  /** Student's t, degrees of freedom above 0; its variance is n/(n - 2). */
  readonly studentT: (degrees: number) => number;
}

const WARM_UP = 32;

/** Finaliser of MurmurHash3 (A. Appleby, public domain; constants from memory): neighbouring seeds part ways. */
const scrambled = (seed: number): number => {
  let x = seed | 0;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return x ^ (x >>> 16);
};

/**
 * xoroshiro128+ (Blackman & Vigna 2018) by pure-rand; normal draws by Box & Muller 1958, Student's t by
 * Bailey 1994 (polar form of the same).
 *
 * @param seed any whole number; its low 32 bits count
 */
export const seeded = (seed: number): Random => drawsOf(started(seed));

/**
 * Independent streams of one seed, for work that is done in parts: each starts 2^64 numbers behind the one before (the
 * authors' jump polynomial), so that none can reach the next, and the first is that of `seeded`.
 */
export const streams = (seed: number, count: number): readonly Random[] => {
  const ahead = started(seed);
  return Array.from({ length: count }, (_, k) => {
    if (k > 0) ahead.jump();
    return drawsOf(ahead.clone());
  });
};

const started = (seed: number): JumpableRandomGenerator => {
  const stream = xoroshiro128plus(scrambled(seed));
  // the state starts with few bits set: the first numbers of neighbouring seeds would look alike
  for (let i = 0; i < WARM_UP; i++) stream.next();
  return stream;
};

const drawsOf = (stream: JumpableRandomGenerator): Random => {
  const uniform = () => uniformFloat64(stream);
  const open = () => 1 - uniform();
  let spare = Number.NaN;
  return {
    uniform,
    normal: () => {
      if (!Number.isNaN(spare)) {
        const kept = spare;
        spare = Number.NaN;
        return kept;
      }
      const radius = Math.sqrt(-2 * Math.log(open()));
      const angle = 2 * Math.PI * uniform();
      spare = radius * Math.sin(angle);
      return radius * Math.cos(angle);
    },
    exponential: () => -Math.log(open()),
    studentT: (degrees) => {
      const radius = Math.sqrt(degrees * (open() ** (-2 / degrees) - 1));
      return radius * Math.cos(2 * Math.PI * uniform());
    },
  };
};
