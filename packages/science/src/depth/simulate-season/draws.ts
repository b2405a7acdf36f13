import type { Random } from '../../random/index.ts';

/** Student's t with 4 degrees of freedom, scaled to variance 1: one error in a hundred beyond 3.3. */
export const heavy = (random: Random): number => random.studentT(4) * Math.SQRT1_2;

/** Gamma with shape 2 (sum of two exponentials): seldom near 0, shorter tail than an exponential. */
export const gamma2 = (random: Random, mean: number): number =>
  (mean / 2) * (random.exponential() + random.exponential());

/** Lognormal by its median and the standard deviation of its log. */
export const logNormal = (random: Random, median: number, sigma: number): number =>
  median * Math.exp(sigma * random.normal());

export const between = (random: Random, from: number, to: number): number =>
  from + (to - from) * random.uniform();

/** As a display or a ruler shows it: to the nearest step, with no digits beyond it. */
export const rounded = (value: number, step: number): number => {
  const per = Math.round(1 / step);
  return Math.round(value * per) / per;
};

/** One of several words, each with its share; shares need not add up to 1. */
export const pick = <Word extends string>(
  random: Random,
  shares: Readonly<Partial<Record<Word, number>>>,
): Word => {
  const words = Object.keys(shares) as Word[];
  let left = random.uniform() * words.reduce((sum, word) => sum + (shares[word] ?? 0), 0);
  for (const word of words) {
    left -= shares[word] ?? 0;
    if (left < 0) return word;
  }
  return words[words.length - 1];
};
