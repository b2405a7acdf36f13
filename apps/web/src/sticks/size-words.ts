import { number } from '../texts/numbers.ts';

/** Bytes as they stand on a stick's wrapping: powers of ten. */
export function sizeWords(bytes: number): string {
  const isLarge = bytes >= 1e9;
  const value = bytes / (isLarge ? 1e9 : 1e6);
  return `${number(value, isLarge && value < 100 ? 1 : 0)}\u00a0${isLarge ? 'GB' : 'MB'}`;
}
