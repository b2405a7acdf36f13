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
  fields: [
    { name: 'number', quantity: 'count', usual: [1, 2000], required: true },
    /** Driller's depth, from the cable, when the drill touched down. */
    { name: 'from', quantity: 'length', unit: 'm', usual: [0, 500] },
    /** Driller's depth at the end of cutting, cable taut. */
    { name: 'to', quantity: 'length', unit: 'm', usual: [0, 500] },
    { name: 'recovered', quantity: 'word', words: ['core', 'nothing'] },
    /** Ice seen or felt to stand in the hole after the run. */
    { name: 'stub', quantity: 'length', unit: 'cm', usual: [0, 0.6] },
    /** Drill set-up of this trip; the newest one where none is named. */
    { name: 'setup', quantity: 'thing', of: 'set-up' },
    /** Zero that the counter was set by; the newest one where none is named. */
    { name: 'zero', quantity: 'thing', of: 'zero' },
    /** Whether the counter was zeroed before this trip. */
    { name: 'counter', quantity: 'word', words: ['zeroed', 'not zeroed'] },
    /** What the core is like as a whole. */
    { name: 'quality', quantity: 'word', words: ['whole', 'few breaks', 'many breaks', 'crumbled'] },
    { name: 'chips', quantity: 'mass', unit: 'kg', usual: [0, 20] },
    { name: 'fluid', quantity: 'volume', unit: 'l', usual: [0, 20] },
    { name: 'current', quantity: 'current', unit: 'A', usual: [0, 25] },
    { name: 'rotation', quantity: 'rotation', unit: 'rpm', usual: [0, 250] },
    { name: 'breakLoad', quantity: 'force', unit: 'kN', usual: [0, 25_000] },
    /** In the core, measured as soon as it lies in the tray. */
    { name: 'temperature', quantity: 'temperature', unit: '°C', usual: [-70, 0] },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** Depth of the hole by weighted tape. */
export const soundingKind: Kind = {
  kind: 'sounding',
  entry: 'sounding.logged',
  version: 1,
  under: 'hole',
  fields: [
    { name: 'afterRun', quantity: 'thing', of: 'run', required: true },
    { name: 'depth', quantity: 'length', unit: 'm', usual: [0, 500], required: true },
    /** Standard deviation of the sounding; 2 cm where it is not said (common practice, no source). */
    { name: 'sd', quantity: 'length', unit: 'cm', usual: [0.001, 0.2] },
  ],
};

/** The counter read when a mark of known distance on the cable passes the zero. */
export const cableCheckKind: Kind = {
  kind: 'cable check',
  entry: 'cable-check.logged',
  version: 1,
  under: 'hole',
  calledBy: 'afterRun',
  fields: [
    { name: 'afterRun', quantity: 'thing', of: 'run', required: true },
    { name: 'mark', quantity: 'length', unit: 'm', usual: [1, 500], required: true },
    { name: 'counter', quantity: 'length', unit: 'm', usual: [1, 500], required: true },
    /** Standard deviation of mark and reading together; 1 cm where it is not said (common practice, no source). */
    { name: 'sd', quantity: 'length', unit: 'cm', usual: [0.001, 0.1] },
  ],
};

/** Direction of the hole at a depth along it. */
export const inclinationKind: Kind = {
  kind: 'inclination',
  entry: 'inclination.logged',
  version: 1,
  under: 'hole',
  calledBy: 'depth',
  fields: [
    { name: 'depth', quantity: 'length', unit: 'm', usual: [0, 500], required: true },
    /** From the vertical. */
    { name: 'angle', quantity: 'angle', unit: '°', usual: [0, 15], required: true },
    /** Of the way down, clockwise from true north. */
    { name: 'azimuth', quantity: 'angle', unit: '°', usual: [0, 360] },
    { name: 'sd', quantity: 'angle', unit: '°', usual: [0.01, 2] },
  ],
};

/** A zero measured again against the first zero of the hole: it settles, or snow buries it. */
export const zeroCheckKind: Kind = {
  kind: 'zero check',
  entry: 'zero-check.logged',
  version: 1,
  under: 'hole',
  calledBy: 'zero',
  fields: [
    { name: 'zero', quantity: 'thing', of: 'zero', required: true },
    { name: 'height', quantity: 'length', unit: 'cm', usual: [-3, 3], required: true },
    { name: 'sd', quantity: 'length', unit: 'cm', usual: [0.001, 0.2] },
    { name: 'method', quantity: 'text', most: 200 },
  ],
};
