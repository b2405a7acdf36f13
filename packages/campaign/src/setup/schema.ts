import type { Kind } from '../kind.ts';

export const campaignKind: Kind = {
  kind: 'campaign',
  entry: 'campaign.opened',
  version: 1,
  under: 'campaign',
  right: 'plan',
  fields: [
    { name: 'name', quantity: 'text', most: 120, required: true },
    /** Screens say so where a campaign is made up. */
    { name: 'invented', quantity: 'word', words: ['yes', 'no'] },
    { name: 'note', quantity: 'text', most: 2000 },
    /** Whether everybody may do everything, as where nothing is said, or only who is named for it. */
    { name: 'rights', quantity: 'word', words: ['everybody', 'by name'], right: 'signOff' },
    /** Whether people have a PIN; not where nothing is said. The PINs themselves are no entries. */
    { name: 'pin', quantity: 'word', words: ['asked', 'not asked'], right: 'signOff' },
  ],
};

/** Whatever writes: a browser profile, a command line. */
export const deviceKind: Kind = {
  kind: 'device',
  entry: 'device.named',
  version: 1,
  under: 'campaign',
  fields: [
    { name: 'device', quantity: 'text', most: 128, required: true },
    { name: 'name', quantity: 'text', most: 60, required: true },
  ],
};

export const personKind: Kind = {
  kind: 'person',
  entry: 'person.logged',
  version: 1,
  under: 'campaign',
  fields: [
    { name: 'initials', quantity: 'text', most: 8, required: true },
    { name: 'name', quantity: 'text', most: 120 },
    /** What the person may do where rights are by name: yes where nothing is said. */
    { name: 'log', quantity: 'word', words: ['yes', 'no'], right: 'signOff' },
    /** No where nothing is said. */
    { name: 'plan', quantity: 'word', words: ['yes', 'no'], right: 'signOff' },
    { name: 'signOff', quantity: 'word', words: ['yes', 'no'], right: 'signOff' },
  ],
};

export const holeKind: Kind = {
  kind: 'hole',
  entry: 'hole.logged',
  version: 1,
  under: 'hole',
  right: 'plan',
  fields: [
    {
      name: 'letter',
      quantity: 'word',
      words: [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'],
      required: true,
    },
    /** Name of the core that comes from it: "CER-B". */
    { name: 'core', quantity: 'text', most: 40 },
  ],
};

/** The dated surface that depths count from; its date is the time at which the entry says it was seen. */
export const zeroKind: Kind = {
  kind: 'zero',
  entry: 'zero.logged',
  version: 1,
  under: 'hole',
  right: 'plan',
  fields: [
    { name: 'surface', quantity: 'text', most: 120, required: true },
    /** Of the zero above the first zero of the hole; below it where negative. */
    { name: 'height', quantity: 'length', unit: 'm', usual: [-3, 3] },
    { name: 'method', quantity: 'text', most: 200 },
  ],
};

/** The drill as it was put together from a day on. A run names one; the newest holds where none is named. */
export const setupKind: Kind = {
  kind: 'set-up',
  entry: 'set-up.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'name',
  fields: [
    { name: 'name', quantity: 'text', most: 60, required: true },
    /** Longest core that the barrel can hold. */
    { name: 'barrel', quantity: 'length', unit: 'm', usual: [0.3, 4] },
    /** Of the core catcher above the cutting edge. */
    { name: 'catcherHeight', quantity: 'length', unit: 'mm', usual: [0, 0.3] },
    /** Diameters that the cutters leave: of the core, of the hole. */
    { name: 'coreDiameter', quantity: 'length', unit: 'mm', usual: [0.04, 0.15] },
    { name: 'holeDiameter', quantity: 'length', unit: 'mm', usual: [0.06, 0.25] },
    { name: 'cutters', quantity: 'text', most: 120 },
    { name: 'shoes', quantity: 'text', most: 120 },
    /** Advance per revolution. */
    { name: 'pitch', quantity: 'length', unit: 'mm', usual: [0.0005, 0.02] },
    { name: 'cable', quantity: 'text', most: 120 },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};
