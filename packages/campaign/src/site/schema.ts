import type { Kind } from '../kind.ts';

/** What is known of the place as a whole, or guessed before it is measured: models of the firn begin here. */
export const siteKind: Kind = {
  kind: 'site',
  entry: 'site.logged',
  version: 1,
  under: 'campaign',
  right: 'plan',
  calledBy: 'name',
  fields: [
    { name: 'name', quantity: 'text', most: 60, required: true },
    /** Of the firn at ten metres, the mean of the year. */
    { name: 'temperature', quantity: 'temperature', unit: '°C', usual: [-65, -2] },
    /** Metres of water a year. */
    { name: 'accumulation', quantity: 'length', unit: 'm', usual: [0.01, 5] },
    { name: 'surfaceDensity', quantity: 'density', unit: 'kg/m³', usual: [150, 550] },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** A snow pit: its wall is read from its surface down. */
export const pitKind: Kind = {
  kind: 'pit',
  entry: 'pit.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'name',
  fields: [
    { name: 'name', quantity: 'text', most: 40, required: true },
    { name: 'depth', quantity: 'length', unit: 'm', usual: [0.1, 10] },
    { name: 'position', quantity: 'position' },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** The top metres, cored by hand beside a hole or before it. */
export const handAugeredKind: Kind = {
  kind: 'hand-augered top',
  entry: 'hand-augered-top.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'name',
  fields: [
    { name: 'name', quantity: 'text', most: 40, required: true },
    { name: 'hole', quantity: 'thing', of: 'hole' },
    { name: 'from', quantity: 'length', unit: 'm', usual: [0, 30] },
    { name: 'to', quantity: 'length', unit: 'm', usual: [0, 30] },
    { name: 'diameter', quantity: 'length', unit: 'mm', usual: [0.04, 0.15] },
    { name: 'position', quantity: 'position' },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** How much of a stake stands above the snow: what fell, what settled. */
export const stakeKind: Kind = {
  kind: 'stake',
  entry: 'stake.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'name',
  fields: [
    { name: 'name', quantity: 'text', most: 40, required: true },
    { name: 'height', quantity: 'length', unit: 'cm', usual: [-1, 6], required: true },
    { name: 'position', quantity: 'position' },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};

/** Where something is, by satellite receiver or survey. */
export const positionKind: Kind = {
  kind: 'position',
  entry: 'position.logged',
  version: 1,
  under: 'campaign',
  calledBy: 'of',
  fields: [
    { name: 'of', quantity: 'thing', of: ['hole', 'pit', 'hand-augered top', 'stake'], required: true },
    { name: 'position', quantity: 'position', required: true },
    /** Above the ellipsoid or the sea: the method says. */
    { name: 'elevation', quantity: 'length', unit: 'm', usual: [-100, 9000] },
    { name: 'sd', quantity: 'length', unit: 'm', usual: [0.005, 20] },
    { name: 'method', quantity: 'text', most: 200 },
  ],
};

export const weatherKind: Kind = {
  kind: 'weather',
  entry: 'weather.logged',
  version: 1,
  under: 'campaign',
  fields: [
    { name: 'temperature', quantity: 'temperature', unit: '°C', usual: [-70, 10] },
    { name: 'wind', quantity: 'speed', unit: 'm/s', usual: [0, 40] },
    /** Where it blows from, clockwise from true north. */
    { name: 'direction', quantity: 'angle', unit: '°', usual: [0, 360] },
    { name: 'gusts', quantity: 'speed', unit: 'm/s', usual: [0, 60] },
    { name: 'sky', quantity: 'word', words: ['clear', 'broken', 'overcast', 'snow', 'drifting snow', 'fog'] },
    { name: 'newSnow', quantity: 'length', unit: 'cm', usual: [0, 1] },
    { name: 'note', quantity: 'text', most: 2000 },
  ],
};
