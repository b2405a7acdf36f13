import { number } from '../texts/numbers.ts';

const joint = '\u00a0';

/** "637 kg/m³". */
export const density = (value: number): string => `${number(value, 0)}${joint}kg/m³`;

/** "637 ± 13 kg/m³": what is random and what a cutter set shares, together. */
export function densityWithError(it: {
  readonly value: number;
  readonly randomSd: number;
  readonly sharedSd: number;
}): string {
  const sd = Math.hypot(it.randomSd, it.sharedSd);
  return `${number(it.value, 0)}${joint}±${joint}${number(Math.max(1, sd), 0)}${joint}kg/m³`;
}

/** "28.412 ± 0.036 m w.e."; millimetres where it is a piece's own. */
export function waterWithError(it: {
  readonly value: number;
  readonly randomSd: number;
  readonly sharedSd: number;
}): string {
  const sd = Math.hypot(it.randomSd, it.sharedSd);
  const decimals = sd >= 0.1 ? 2 : 3;
  return `${number(it.value, decimals)}${joint}±${joint}${number(sd, decimals)} m${joint}w.e.`;
}
