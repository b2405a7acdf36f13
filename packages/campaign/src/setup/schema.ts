import type { Kind } from '../kind.ts';

export const campaignKind: Kind = {
  kind: 'campaign',
  entry: 'campaign.opened',
  version: 1,
  under: 'campaign',
  plural: 'campaigns',
  fields: [
    { name: 'name', label: 'name', quantity: 'text', most: 120, required: true },
    /** Screens say so where a campaign is made up. */
    { name: 'invented', label: 'invented', quantity: 'word', words: ['yes', 'no'] },
    { name: 'note', label: 'note', quantity: 'text', most: 2000 },
  ],
};

/** Whatever writes: a browser profile, a command line. */
export const deviceKind: Kind = {
  kind: 'device',
  entry: 'device.named',
  version: 1,
  under: 'campaign',
  plural: 'devices',
  fields: [
    { name: 'device', label: 'device id', quantity: 'text', most: 128, required: true },
    { name: 'name', label: 'name', quantity: 'text', most: 60, required: true },
  ],
};

export const personKind: Kind = {
  kind: 'person',
  entry: 'person.logged',
  version: 1,
  under: 'campaign',
  plural: 'people',
  fields: [
    { name: 'initials', label: 'initials', quantity: 'text', most: 8, required: true },
    { name: 'name', label: 'name', quantity: 'text', most: 120 },
  ],
};

export const holeKind: Kind = {
  kind: 'hole',
  entry: 'hole.logged',
  version: 1,
  under: 'hole',
  plural: 'holes',
  fields: [
    {
      name: 'letter',
      label: 'letter',
      quantity: 'word',
      words: [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'],
      required: true,
    },
    /** Name of the core that comes from it: "CER-B". */
    { name: 'core', label: 'name of the core', quantity: 'text', most: 40 },
  ],
};

/** The dated surface that depths count from; its date is the time at which the entry says it was seen. */
export const zeroKind: Kind = {
  kind: 'zero',
  entry: 'zero.logged',
  version: 1,
  under: 'hole',
  plural: 'zeros',
  fields: [
    { name: 'surface', label: 'surface', quantity: 'text', most: 120, required: true },
    /** Of the zero above the first zero of the hole; below it where negative. */
    { name: 'height', label: 'height above the first zero', quantity: 'length', unit: 'm', usual: [-3, 3] },
    { name: 'method', label: 'how it was measured', quantity: 'text', most: 200 },
  ],
};
