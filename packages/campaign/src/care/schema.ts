import type { Kind } from '../kind.ts';

/** An instrument held against something known, once a day as a rule. */
export const instrumentCheckKind: Kind = {
  kind: 'instrument check',
  entry: 'instrument-check.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'instrument',
  fields: [
    {
      name: 'instrument',
      quantity: 'word',
      words: ['balance', 'caliper', 'tape', 'thermometer', 'cable marks', 'clock', 'other'],
      required: true,
    },
    /** Its number or name, where there are several. */
    { name: 'which', quantity: 'text', most: 60 },
    /** What it was held against, with its unit: "1000 g". */
    { name: 'against', quantity: 'text', most: 60 },
    /** What it read, with its unit: "999,8 g". */
    { name: 'read', quantity: 'text', most: 60 },
    { name: 'result', quantity: 'word', words: ['good', 'set right', 'off'], required: true },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** Whatever may have soiled the ice or the samples: a diary that laboratories ask for years later. */
export const contaminationKind: Kind = {
  kind: 'contamination',
  entry: 'contamination.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'source',
  fields: [
    {
      name: 'source',
      quantity: 'word',
      words: [
        'generator',
        'vehicle',
        'aircraft',
        'stove',
        'wind from camp',
        'antifreeze in the hole',
        'drill oil',
        'bare hands',
        'other',
      ],
      required: true,
    },
    { name: 'hole', quantity: 'thing', of: 'hole' },
    { name: 'began', quantity: 'time' },
    { name: 'ended', quantity: 'time' },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

export const blankKind: Kind = {
  kind: 'blank',
  entry: 'blank.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'name',
  fields: [
    { name: 'name', quantity: 'text', most: 40, required: true },
    {
      name: 'what',
      quantity: 'word',
      words: ['swab', 'blank ice through the drill', 'rinse water', 'air', 'bag'],
      required: true,
    },
    { name: 'hole', quantity: 'thing', of: 'hole' },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** Who is at work, as what. It lasts until it is said to have ended. */
export const dutyKind: Kind = {
  kind: 'duty',
  entry: 'duty.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'person',
  fields: [
    { name: 'person', quantity: 'thing', of: 'person', required: true },
    {
      name: 'as',
      quantity: 'word',
      words: ['driller', 'logger', 'packer', 'mechanic', 'medic', 'cook', 'lead'],
      required: true,
    },
    { name: 'began', quantity: 'time', required: true },
    { name: 'ended', quantity: 'time' },
  ],
};

/** What one shift tells the next. */
export const handoverKind: Kind = {
  kind: 'handover',
  entry: 'handover.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'to',
  fields: [
    { name: 'to', quantity: 'thing', of: 'person' },
    { name: 'says', quantity: 'text', most: 4000, required: true },
  ],
};
