import type { Kind } from '../kind.ts';

/** Unbroken length of core within a run, numbered from the top. A bare length is in centimetres. */
export const pieceKind: Kind = {
  kind: 'piece',
  entry: 'piece.logged',
  version: 1,
  under: 'hole',
  fields: [
    { name: 'run', quantity: 'thing', of: 'run', required: true },
    { name: 'number', quantity: 'count', usual: [1, 30], required: true },
    { name: 'length', quantity: 'length', unit: 'cm', usual: [0.005, 1.5] },
    /**
     * How its top meets the piece above: fits; ground by spinning; ice lost; unsure; sawn on the bench; broken in
     * handling, after it had come up whole.
     */
    {
      name: 'topBreak',
      quantity: 'word',
      words: ['fits', 'ground', 'loss', 'unsure', 'sawn', 'handling'],
      required: true,
    },
    /** Estimated ice missing above it, where the break is "loss" or "ground". */
    { name: 'loss', quantity: 'length', unit: 'cm', usual: [0, 0.5] },
    /** Width of the saw cut above it, where the break is "sawn". */
    { name: 'kerf', quantity: 'length', unit: 'mm', usual: [0.0005, 0.006] },
    /** Ice that has no depth of its own: snow off the wall, a plug of chips, milled ice; crumbled core has one. */
    {
      name: 'ice',
      quantity: 'word',
      words: ['in place', 'crumbled', 'wall snow', 'chip plug', 'milled'],
    },
    { name: 'order', quantity: 'word', words: ['sure', 'unsure'] },
    { name: 'way', quantity: 'word', words: ['up', 'upside down', 'unknown'] },
    /** Turned against the piece above by this much, clockwise as seen from the top. */
    { name: 'turned', quantity: 'angle', unit: '°', usual: [-180, 360] },
    { name: 'found', quantity: 'word', words: ['with the run', 'later'] },
    { name: 'brokenAgain', quantity: 'word', words: ['no', 'yes'] },
    /** From its top down to the scratch that a core catcher left. */
    { name: 'catcherMark', quantity: 'length', unit: 'mm', usual: [0, 1.5] },
    /** The run whose catcher left it; its own run where none is named. */
    { name: 'catcherRun', quantity: 'thing', of: 'run' },
    /** With whatever it lay in or on. */
    { name: 'mass', quantity: 'mass', unit: 'g', usual: [0.01, 15] },
    { name: 'tare', quantity: 'mass', unit: 'g', usual: [0, 5] },
    { name: 'diameterTop', quantity: 'length', unit: 'mm', usual: [0.04, 0.15] },
    { name: 'diameterMiddle', quantity: 'length', unit: 'mm', usual: [0.04, 0.15] },
    { name: 'diameterBottom', quantity: 'length', unit: 'mm', usual: [0.04, 0.15] },
    /** Share of its volume that is missing as wedges and chips. */
    { name: 'missing', quantity: 'share', unit: '%', usual: [0, 0.3] },
    { name: 'temperature', quantity: 'temperature', unit: '°C', usual: [-70, 0] },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** A whole run laid together along one tape: where it begins, each break, and where it ends, top first. */
export const trayKind: Kind = {
  kind: 'tray',
  entry: 'tray.logged',
  version: 1,
  under: 'hole',
  calledBy: 'run',
  fields: [
    { name: 'run', quantity: 'thing', of: 'run', required: true },
    { name: 'positions', quantity: 'lengths', unit: 'cm', usual: [0, 3], required: true },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** Something seen in the ice, anchored to the piece and never to a depth. */
export const featureKind: Kind = {
  kind: 'feature',
  entry: 'feature.logged',
  version: 1,
  under: 'hole',
  calledBy: 'piece',
  fields: [
    { name: 'piece', quantity: 'thing', of: 'piece', required: true },
    {
      name: 'what',
      quantity: 'word',
      words: ['melt layer', 'crust', 'dust', 'crack', 'bubbles', 'other'],
      required: true,
    },
    /** End of the piece that the distances are measured from. */
    { name: 'end', quantity: 'word', words: ['top', 'bottom'], required: true },
    { name: 'at', quantity: 'length', unit: 'mm', usual: [0, 1.5], required: true },
    { name: 'thickness', quantity: 'length', unit: 'mm', usual: [0, 0.5] },
    /** Entry of the piece's length at the time, so that a new length shows what hangs on the old one. */
    { name: 'lengthEntry', quantity: 'text', most: 64 },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

export const photographKind: Kind = {
  kind: 'photograph',
  entry: 'photograph.logged',
  version: 1,
  under: 'hole',
  calledBy: 'of',
  fields: [
    { name: 'of', quantity: 'thing', of: ['run', 'piece', 'feature', 'zero', 'tray'], required: true },
    /** SHA-256 of the picture, kept as received beside the journal. */
    { name: 'picture', quantity: 'attachment', required: true },
    { name: 'caption', quantity: 'text', most: 400 },
  ],
};
