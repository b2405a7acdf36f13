import type {
  CampaignView,
  DensityView,
  DepthView,
  HoleView,
  PieceView,
  RunView,
  ThingView,
} from '@firnbook/campaign';
import { describe, expect, it } from 'vitest';
import '../texts/for-calculator.ts';
import {
  airTemperature,
  cableWords,
  coreDiameter,
  coreTemperature,
  fromSetUp,
  fromSite,
  holeDepth,
  meanDensity,
  type OpenBook,
  pieceJustLogged,
  pieceMass,
} from './from-book.ts';

// Invented readings: what the field says in its base unit, and when.
const thing = (
  kind: string,
  name: string,
  at: string,
  readings: Readonly<Record<string, number | string>> = {},
): ThingView => ({
  id: name,
  kind,
  name,
  aliases: [],
  by: 'p1',
  at,
  device: 'd',
  readings: Object.fromEntries(
    Object.entries(readings).map(([field, said]) => [
      field,
      {
        field,
        text: String(said),
        value: typeof said === 'number' ? said : null,
        entry: field,
        by: 'p1',
        at,
        struck: [],
        against: [],
      },
    ]),
  ),
  withdrawn: null,
  entries: [name],
});
const gone = { reason: 'logged twice', by: 'p1', at: '2026-06-18T13:00:00Z', entries: ['w'] };
const piece = (number: number, at: string, readings: Readonly<Record<string, number>>): PieceView => ({
  ...thing('piece', `B-P007.${number}`, at, readings),
  run: 'B-R007',
  number,
});
const run = (
  number: number,
  pieces: readonly PieceView[],
  readings: Readonly<Record<string, number>>,
): RunView => ({
  ...thing('run', `B-R00${number}`, `2026-06-1${number}T09:00:00Z`, readings),
  number,
  nothingRecovered: false,
  pieces,
});

const pieces = [
  piece(1, '2026-06-17T10:05:00Z', { length: 0.412, mass: 2.9, diameterTop: 0.0981, temperature: -16.2 }),
  piece(2, '2026-06-17T10:09:00Z', {
    length: 0.538,
    mass: 3.71,
    tare: 0.12,
    diameterTop: 0.0984,
    diameterBottom: 0.0978,
  }),
  { ...piece(3, '2026-06-17T10:20:00Z', { length: 0.3 }), withdrawn: gone },
];
const hole = {
  ...thing('hole', 'B', '2026-06-10T08:00:00Z'),
  letter: 'B',
  zeros: [],
  runs: [run(6, [], { from: 4.1, to: 5.02, temperature: -15.8 }), run(7, pieces, { from: 5.02, to: 5.98 })],
  soundings: [],
  others: {},
  conflicts: [],
  notUnderstood: 0,
  waiting: 0,
} as HoleView;
const campaign = {
  id: 'c',
  name: 'Ceredin Saddle',
  invented: true,
  people: [{ ...thing('person', 'KT', '2026-06-01T08:00:00Z'), id: 'p1' }],
  holes: [hole],
  others: {
    'set-up': [
      thing('set-up', 'first', '2026-06-02T08:00:00Z', {
        holeDiameter: 0.128,
        coreDiameter: 0.1,
        cable: 'steel, 4.7 mm',
      }),
      thing('set-up', 'second', '2026-06-12T08:00:00Z', { holeDiameter: 0.132 }),
    ],
    weather: [
      thing('weather', '', '2026-06-17T06:00:00Z', { temperature: -21.5 }),
      thing('weather', '', '2026-06-16T06:00:00Z', { temperature: -9 }),
    ],
    site: [thing('site', 'saddle', '2026-06-01T09:00:00Z', { accumulation: 0.38, temperature: -17.3 })],
  },
} as unknown as CampaignView;
const book: OpenBook = { campaign, hole, depths: null, density: null };
const empty: OpenBook = { campaign: { ...campaign, others: {} }, hole: null, depths: null, density: null };

describe('what the book offers the calculator', () => {
  it('the piece that was logged last and still counts, its mass less its tare, its mean diameter', () => {
    const last = pieceJustLogged(book);
    expect(last?.name).toBe('B-P007.2');
    expect(pieceMass(book, last!)).toMatchObject({ value: 3.71 - 0.12, unit: 'kg' });
    expect(pieceMass(book, last!)?.says).toMatch(/^B-P007\.2, .*: KT, .*; less its tare$/);
    expect(coreDiameter(book, last)?.value).toBeCloseTo(0.0981, 9);
    expect(coreDiameter(book, last)?.says).toMatch(/^B-P007\.2, mean of 2 diameters: KT/);
  });
  it('the diameter that the cutters leave, where the caliper read none', () => {
    expect(coreDiameter(book, undefined)).toMatchObject({ value: 0.1 });
    expect(coreDiameter(book, undefined)?.says).toMatch(/^first, /);
  });
  it('the newest set-up that says it', () => {
    expect(fromSetUp(book, 'holeDiameter')).toMatchObject({ value: 0.132, unit: 'm' });
    expect(cableWords(book)).toBe('Set-up “first”, cable: steel, 4.7 mm');
  });
  it('how deep the hole is: by the counter, and solved with its uncertainty once it is', () => {
    expect(holeDepth(book)).toMatchObject({ value: 5.98 });
    expect(holeDepth(book)).not.toHaveProperty('sd');
    const depths = { holeBottom: { value: 5.941, sd: 0.021, min: 5.9, max: 6 } } as DepthView;
    expect(holeDepth({ ...book, depths })).toEqual({
      value: 5.941,
      sd: 0.021,
      unit: 'm',
      says: 'Hole B, solved bottom',
    });
  });
  it('temperatures that were read last: of core in a run or a piece, of the air', () => {
    expect(coreTemperature(book)).toMatchObject({ value: -16.2, unit: 'Cel' });
    expect(airTemperature(book)).toMatchObject({ value: -21.5 });
  });
  it('mean density above the bottom of the weighed core', () => {
    const water = [
      { depth: 2.5, value: 1.1, randomSd: 0.01, sharedSd: 0.01 },
      { depth: 5.9, value: 2.714, randomSd: 0.012, sharedSd: 0.016 },
    ];
    const offer = meanDensity({ ...book, density: { water, weighed: 0.93 } as unknown as DensityView });
    expect(offer?.value).toBeCloseTo(460, 9);
    expect(offer?.sd).toBeCloseTo((1000 * 0.02) / 5.9, 9);
  });
  it('the site', () => {
    expect(fromSite(book, 'accumulation', 'm w.e./a')).toMatchObject({ value: 0.38, unit: 'm w.e./a' });
    expect(fromSite(book, 'surfaceDensity', 'kg/m3')).toBeUndefined();
  });
  it('offers nothing that an empty book does not hold', () => {
    const offers = [pieceJustLogged, holeDepth, coreTemperature, airTemperature, meanDensity, cableWords];
    expect(offers.map((offer) => offer(empty))).toEqual(offers.map(() => undefined));
  });
});
