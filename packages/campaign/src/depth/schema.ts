import type { Kind } from '../kind.ts';

/** A person has looked at a reading that does not fit, and says that it is right. */
export const standsKind: Kind = {
  kind: 'confirmed reading',
  entry: 'reading.confirmed',
  version: 1,
  under: 'hole',
  calledBy: 'of',
  fields: [
    {
      name: 'of',
      quantity: 'thing',
      of: ['run', 'piece', 'sounding', 'cable check', 'zero', 'zero check'],
      required: true,
    },
    { name: 'field', quantity: 'text', most: 40, required: true },
    /** The entry that says the reading, "none" where there is no reading: a later correction asks again. */
    { name: 'entry', quantity: 'text', most: 64, required: true },
  ],
};

/** What a hole's depth adjustment takes for granted where it is not the usual; one a hole, corrected like a reading. */
export const settingsKind: Kind = {
  kind: 'depth settings',
  entry: 'depth-settings.logged',
  version: 1,
  under: 'hole',
  right: 'plan',
  fields: [
    { name: 'lengthSdIce', quantity: 'length', unit: 'mm', usual: [0.0005, 0.02] },
    { name: 'lengthSdFirn', quantity: 'length', unit: 'mm', usual: [0.0005, 0.03] },
    { name: 'firnTo', quantity: 'length', unit: 'm', usual: [0, 150] },
    { name: 'runBiasSd', quantity: 'length', unit: 'mm', usual: [0, 0.01] },
    { name: 'tapeScaleSd', quantity: 'share', unit: '%', usual: [0, 0.01] },
    { name: 'readingSd', quantity: 'length', unit: 'cm', usual: [0.001, 0.05] },
    { name: 'readingStep', quantity: 'length', unit: 'cm', usual: [0.0001, 0.1] },
    { name: 'tripOffsetSd', quantity: 'length', unit: 'cm', usual: [0, 0.1] },
    { name: 'cableScaleSd', quantity: 'share', unit: '%', usual: [0, 0.02] },
    { name: 'fillMean', quantity: 'length', unit: 'cm', usual: [0.001, 0.5] },
    { name: 'stubMean', quantity: 'length', unit: 'cm', usual: [0.001, 0.5] },
    { name: 'unsureGapMean', quantity: 'length', unit: 'cm', usual: [0.001, 0.5] },
    { name: 'fitGapMax', quantity: 'length', unit: 'mm', usual: [0, 0.01] },
    { name: 'lossSd', quantity: 'length', unit: 'mm', usual: [0, 0.02] },
    { name: 'lossShareSd', quantity: 'share', unit: '%', usual: [0, 1] },
    /** Of the ice in the hole; lengths of pieces whose temperature was taken are reduced to it. */
    { name: 'holeTemperature', quantity: 'temperature', unit: '°C', usual: [-70, 0] },
  ],
};

/** A signed-off state of a hole's solved depths: what came out, of which solver, on what assumptions. */
export const depthVersionKind: Kind = {
  kind: 'depth version',
  entry: 'depth-version.logged',
  version: 1,
  under: 'hole',
  right: 'signOff',
  calledBy: 'name',
  fields: [
    { name: 'name', quantity: 'text', most: 40, required: true },
    { name: 'solver', quantity: 'text', most: 40, required: true },
    /** SHA-256 of the file that holds depths, assumptions and the entries that they were computed from. */
    { name: 'table', quantity: 'attachment', required: true },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** Where the depths of one hole, pit or hand-augered top lie on those of another: its depth = the other's + offset. */
export const spliceKind: Kind = {
  kind: 'splice',
  entry: 'splice.logged',
  version: 1,
  under: 'campaign',
  right: 'plan',
  calledBy: 'of',
  fields: [
    { name: 'of', quantity: 'thing', of: ['hole', 'pit', 'hand-augered top'], required: true },
    { name: 'on', quantity: 'thing', of: ['hole', 'pit', 'hand-augered top'], required: true },
    { name: 'offset', quantity: 'length', unit: 'cm', usual: [-30, 30], required: true },
    { name: 'sd', quantity: 'length', unit: 'cm', usual: [0.001, 1] },
    { name: 'method', quantity: 'text', most: 400 },
  ],
};
