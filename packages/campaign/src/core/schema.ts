import type { Kind } from '../kind.ts';

/** Unbroken length of core within a run, numbered from the top. A bare length is in centimetres. */
export const pieceKind: Kind = {
  kind: 'piece',
  entry: 'piece.logged',
  version: 1,
  under: 'hole',
  plural: 'pieces',
  fields: [
    { name: 'run', label: 'run', quantity: 'thing', of: 'run', required: true },
    { name: 'number', label: 'number', quantity: 'count', usual: [1, 30], required: true },
    { name: 'length', label: 'length', quantity: 'length', unit: 'cm', usual: [0.005, 1.5] },
    /** How its top meets the piece above. */
    {
      name: 'topBreak',
      label: 'break above it',
      quantity: 'word',
      words: ['fits', 'loss', 'unsure'],
      required: true,
    },
    /** Estimated ice missing above it, where the break is "loss". */
    { name: 'loss', label: 'lost ice above it', quantity: 'length', unit: 'cm', usual: [0, 0.5] },
  ],
};
