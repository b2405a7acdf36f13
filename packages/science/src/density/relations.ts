import { iceDensity } from '../firn/quantities.ts';
import { numberTaken, type Relation, relation } from '../relations/relation.ts';
import { inKelvin } from '../units.ts';
import { pieceBounds } from './piece-density.ts';
import { pieceVerdict, type RoundPiece, roundPieceDensity } from './possible-piece.ts';
import { iceEquivalent, layerWaterEquivalent } from './water-equivalent.ts';
import { wedgeVolume } from './wedge.ts';

const takenForWhole = 'bounds against units mixed up, common practice';

const pieceOf = (given: {
  readonly mass: number;
  readonly diameter: number;
  readonly length: number;
  readonly temperature: number;
}): RoundPiece => ({ ...given, temperature: inKelvin(given.temperature) });

const pieceDensityRelation = relation({
  name: 'piece-density',
  title: 'Density of a piece of core, and whether ice can have it',
  page: 'piece-density',
  source:
    'Mass over volume; uncertainties by JCGM 100:2008, eq. (10); ice by IAPWS R10-06(2009), doi:10.1063/1.2183324',
  takes: {
    mass: numberTaken('m', 'mass of the ice, without its tray', 'kg', pieceBounds.mass, takenForWhole),
    diameter: numberTaken('d', 'diameter', 'm', pieceBounds.diameter, takenForWhole),
    length: numberTaken('L', 'length, ends square', 'm', pieceBounds.length, takenForWhole),
    temperature: {
      ...numberTaken(
        'T',
        'temperature of the piece',
        'Cel',
        [-100, 0],
        'ice, and no colder than any glacier',
      ),
      usual: -15,
    },
  },
  gives: {
    density: { symbol: 'ρ', what: 'density', unit: 'kg/m3' },
    water: { symbol: 'w', what: 'water equivalent', unit: 'm w.e.' },
    ice: { symbol: 'ρ_ice', what: 'most that ice can have', unit: 'kg/m3' },
    excess: { symbol: 'ρ - ρ_ice', what: 'density above that of ice', unit: 'kg/m3' },
    possible: { symbol: '', what: 'whether ice can have it', unit: '' },
  },
  compute: (given) => {
    const piece = pieceOf(given);
    const { density, waterEquivalent, ice, excess } = roundPieceDensity(piece);
    return { density, water: waterEquivalent, ice, excess, possible: pieceVerdict(piece, []) };
  },
  verdict: (given, { excess }) => ({ possible: pieceVerdict(pieceOf(given), excess.parts) }),
});

const waterRelation = relation({
  name: 'water-equivalent',
  title: 'A layer as metres of water and metres of ice',
  page: 'water-equivalent',
  source: 'By definition: water of 1000 kg/m3, whatever its temperature',
  takes: {
    thickness: numberTaken('t', 'thickness of the layer', 'm', [0, 5000], 'no ice sheet is thicker'),
    density: numberTaken('ρ', 'its mean density', 'kg/m3', [10, 940], 'snow to ice'),
    iceDensity,
  },
  gives: {
    water: { symbol: 'w', what: 'water equivalent', unit: 'm w.e.' },
    ice: { symbol: '', what: 'ice equivalent', unit: 'm' },
  },
  compute: ({ thickness, density, iceDensity }) => {
    const water = layerWaterEquivalent(thickness, density);
    return { water, ice: iceEquivalent(water, iceDensity) };
  },
});

const iceRelation = relation({
  name: 'ice-equivalent',
  title: 'Metres of water as metres of ice',
  page: 'water-equivalent',
  source: 'By definition: w.e. times 1000 over the density of ice',
  takes: {
    water: numberTaken('w', 'water equivalent', 'm w.e.', [0, 5000], 'no ice sheet is thicker'),
    iceDensity,
  },
  gives: { ice: { symbol: '', what: 'ice equivalent', unit: 'm' } },
  compute: ({ water, iceDensity }) => ({ ice: iceEquivalent(water, iceDensity) }),
});

const wedgeRelation = relation({
  name: 'missing-wedge',
  title: 'Ice missing from a piece of core',
  page: 'piece-density',
  source: 'Cylindrical hoof and circular segment, handbooks of mathematics (from memory)',
  takes: {
    kind: {
      kind: 'choice',
      symbol: '',
      what: 'a corner broken off an end, or a strip along the side',
      options: ['end', 'side'],
    },
    depth: {
      kind: 'number',
      symbol: 'b',
      what: 'how deep it reaches in along the diameter',
      unit: 'm',
      range: [0, pieceBounds.diameter[1]],
      because: 'no deeper than the core is thick',
    },
    length: {
      kind: 'number',
      symbol: 'h',
      what: 'how far along the core',
      unit: 'm',
      range: [1e-4, pieceBounds.length[1]],
      because: takenForWhole,
    },
    diameter: numberTaken('d', 'diameter of the core', 'm', pieceBounds.diameter, takenForWhole),
  },
  gives: { volume: { symbol: 'W', what: 'volume missing', unit: 'm3' } },
  compute: ({ kind, depth, length, diameter }) => ({
    volume: wedgeVolume({ kind, depth, length }, diameter, 'missing-wedge'),
  }),
});

export const densityRelations: readonly Relation[] = [
  pieceDensityRelation,
  waterRelation,
  iceRelation,
  wedgeRelation,
];
