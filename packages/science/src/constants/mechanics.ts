import type { Constants } from './constant.ts';

/** What drill and cable are made of. */
export const mechanicsConstants = {
  steelExpansion: {
    symbol: 'α',
    what: 'linear thermal expansion of steel, as of an armoured cable',
    value: 1.2e-5,
    sd: null,
    unit: '1/K',
    source: 'engineering handbooks, 11e-6 to 13e-6 for carbon steel',
    seen: 'from memory',
  },
} as const satisfies Constants;
