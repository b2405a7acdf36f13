import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { closedShareOfPores, closeOffDensity, lockInDensity } from './close-off.ts';
import { exponentialDensity } from './exponential-profile.ts';
import { closeOffVariant, densityOf, depth, iceDensity, surfaceDensity, temperature } from './quantities.ts';

const martinerie =
  'Martinerie et al. 1994, J. Geophys. Res. 99 (D5), 10565, doi:10.1029/93JD03300, or the variant named (from memory)';

const closeOffRelation = relation({
  name: 'close-off',
  title: 'Density at which air in firn is cut off',
  page: 'firn',
  source: `${martinerie}; lock-in by Blunier & Schwander 2000 (from memory)`,
  takes: { temperature, closeOff: closeOffVariant, iceDensity },
  gives: {
    closeOffDensity: { symbol: 'ρ_co', what: 'density of close-off', unit: 'kg/m3' },
    lockInDensity: { symbol: 'ρ_LI', what: 'density of lock-in', unit: 'kg/m3' },
  },
  compute: ({ temperature: celsius, closeOff, iceDensity: ice }) => {
    const density = closeOffDensity(inKelvin(celsius), closeOff, ice);
    return { closeOffDensity: density, lockInDensity: lockInDensity(density) };
  },
});

const closedPoresRelation = relation({
  name: 'closed-pores',
  title: 'Share of the pores that is closed',
  page: 'firn',
  source: 'Goujon, Barnola & Ritz 2003, J. Geophys. Res. 108 (D24), 4792 (from memory)',
  takes: { density: densityOf('density'), temperature, closeOff: closeOffVariant, iceDensity },
  gives: { closed: { symbol: 'f', what: 'closed share of the pores', unit: '1' } },
  compute: ({ density, temperature: celsius, closeOff, iceDensity: ice }) => ({
    closed: closedShareOfPores(density, closeOffDensity(inKelvin(celsius), closeOff, ice), ice),
  }),
});

const exponentialRelation = relation({
  name: 'exponential-profile',
  title: 'Density of dry firn by the simplest profile, for planning',
  page: 'firn',
  source: 'Cuffey & Paterson 2010, The Physics of Glaciers, 4th edition, eq. (2.2), as quoted',
  takes: {
    depth,
    surfaceDensity,
    firnDepth: numberTaken('z_t', 'depth where firn becomes ice', 'm', [1, 500], 'no firn is deeper'),
  },
  gives: { density: { symbol: 'ρ', what: 'density', unit: 'kg/m3' } },
  compute: ({ depth: z, surfaceDensity: surface, firnDepth }) => ({
    density: exponentialDensity(z, surface, firnDepth),
  }),
});

export const closeOffRelations: readonly Relation[] = [
  closeOffRelation,
  closedPoresRelation,
  exponentialRelation,
];
