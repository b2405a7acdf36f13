import type { ColourName } from './shape.ts';

/** Light across a cylinder as stops from its left side (0) to its right side (1), lit from the upper left. */
export const litStops: readonly (readonly [share: number, colour: ColourName])[] = [
  [0, 'ice-edge'],
  [0.07, 'ice'],
  [0.36, 'ice-lit'],
  [0.5, 'ice-lit'],
  [0.86, 'ice'],
  [1, 'ice-edge'],
];
