import { universal } from '../constants/universal.ts';
import { numbersTaken, numberTaken } from '../relations/relation.ts';
import { creepVariants } from './creep-parameter.ts';

/** Quantities that several relations of mechanics take in the same words. */
export const gravityAsked = {
  ...numberTaken('g', 'gravity', 'm/s2', [9.7, 9.9], 'gravity on the ground, anywhere on Earth'),
  usual: universal.standardGravity.value,
};

export const iceTemperatureAsked = numberTaken(
  'T',
  'temperature of the ice',
  'Cel',
  [-50, 0],
  'Cuffey & Paterson 2010, Table 3.4',
);

export const creepVariantAsked = {
  kind: 'choice',
  symbol: 'A',
  what: 'published creep parameter',
  options: creepVariants,
} as const;

/** Ice and firn above, by layers. */
export const layersAsked = {
  bottoms: numbersTaken('z_i', 'bottoms of the layers, downwards', 'm', [0, 5000], 'no ice sheet is thicker'),
  densities: numbersTaken(
    'ρ_i',
    'density of each layer',
    'kg/m3',
    [50, 940],
    'fresh snow to ice under pressure',
  ),
} as const;
