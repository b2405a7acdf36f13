import type { Kind } from '../kind.ts';

/**
 * One trip of the drill. Its time is the time at which the entry says it was seen. Neither depth is required: a
 * run whose counter could not be read must still be logged.
 */
export const runKind: Kind = {
  kind: 'run',
  entry: 'run.logged',
  version: 1,
  under: 'hole',
  plural: 'runs',
  fields: [
    { name: 'number', label: 'number', quantity: 'count', usual: [1, 2000], required: true },
    /** Driller's depth, from the cable, when the drill touched down. */
    { name: 'from', label: 'depth from', quantity: 'length', unit: 'm', usual: [0, 500] },
    /** Driller's depth at the end of cutting, cable taut. */
    { name: 'to', label: 'depth to', quantity: 'length', unit: 'm', usual: [0, 500] },
    { name: 'recovered', label: 'recovered', quantity: 'word', words: ['core', 'nothing'] },
  ],
};

/** Depth of the hole by weighted tape. */
export const soundingKind: Kind = {
  kind: 'sounding',
  entry: 'sounding.logged',
  version: 1,
  under: 'hole',
  plural: 'soundings',
  fields: [
    { name: 'afterRun', label: 'after run', quantity: 'thing', of: 'run', required: true },
    { name: 'depth', label: 'depth', quantity: 'length', unit: 'm', usual: [0, 500], required: true },
    /** Standard deviation of the sounding; 2 cm where it is not said (common practice, no source). */
    { name: 'sd', label: 'uncertainty', quantity: 'length', unit: 'cm', usual: [0.001, 0.2] },
  ],
};
