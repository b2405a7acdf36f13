import { describe, expect, it } from 'vitest';
import { herronLangway } from '../firn/herron-langway.ts';
import { seeded } from '../random/index.ts';
import { coreDensity, coreWater } from './core-density.ts';
import type { PieceReadings } from './readings.ts';

const column = herronLangway({ temperature: 253.15, accumulation: 0.4, surfaceDensity: 360 });

/** An invented core of 110 m, weighed and measured with errors; then slips are put in. */
const core = (
  seed: number,
  slip: (piece: PieceReadings, i: number) => Partial<PieceReadings> = () => ({}),
) => {
  const random = seeded(seed);
  return Array.from({ length: 140 }, (_, i): PieceReadings => {
    const top = i * 0.78 + 0.005;
    const length = 0.75 + 0.02 * random.normal();
    const water = column.waterEquivalent(top + length) - column.waterEquivalent(top);
    const diameter = 0.098 + 0.0002 * random.normal();
    const mass = ((water * 1000 * Math.PI) / 4) * diameter ** 2 * (1 + 0.006 * random.normal());
    const rounded = (value: number, step: number) => Math.round(value / step) * step;
    const piece: PieceReadings = {
      id: `${i}`,
      cutterSet: 'set 1',
      gross: rounded(mass + 0.252 + 0.003 * random.normal(), 0.001),
      tare: 0.252,
      lengths: [rounded(length + 0.002 * random.normal(), 0.001)],
      diameters: [0, 1].map(() => rounded(diameter + 0.0002 * random.normal(), 0.0001)),
      sawnEnds: 0,
      top,
      bottom: top + length,
      temperature: 258.15,
    };
    return { ...piece, ...slip(piece, i) };
  });
};
const flagged = (pieces: readonly PieceReadings[]) =>
  coreDensity(pieces).pieces.filter(({ flag }) => flag !== null);

describe('density of a core', () => {
  it('flags at most 2 of 2,800 pieces of 20 clean cores', () => {
    let count = 0;
    for (let seed = 1; seed <= 20; seed++) count += flagged(core(seed)).length;
    expect(count).toBeLessThanOrEqual(2);
  }, 60_000);

  const deep = 130;
  const shallow = 15;
  const slips: readonly [string, number, string, string, (piece: PieceReadings) => Partial<PieceReadings>][] =
    [
      [
        '10 cm too short in deep ice',
        deep,
        'length',
        '10 cm',
        ({ lengths }) => ({ lengths: [lengths[0] - 0.1] }),
      ],
      [
        '10 cm too long in firn',
        shallow,
        'length',
        '10 cm',
        ({ lengths }) => ({ lengths: [lengths[0] + 0.1] }),
      ],
      ['1 kg too heavy in deep ice', deep, 'mass', '1 kg', ({ gross }) => ({ gross: gross! + 1 })],
      ['tare not taken off', deep, 'tare', 'tare not taken off', ({ gross }) => ({ gross: gross!, tare: 0 })],
      [
        'tare taken off twice',
        60,
        'tare',
        'tare taken off twice',
        ({ gross, tare }) => ({ gross: gross! - tare! }),
      ],
      [
        'one of two diameters 10 mm too small',
        deep,
        'diameter',
        '10 mm',
        ({ diameters: [a, b] }) => ({ diameters: [(a as number) - 0.01, b] }),
      ],
      [
        'both diameters 10 mm too small',
        deep,
        'diameter',
        '10 mm in all',
        ({ diameters }) => ({ diameters: diameters.map((d) => (d as number) - 0.01) }),
      ],
      [
        'digits of a diameter exchanged: 98.2 read as 89.2',
        deep,
        'diameter',
        'two digits exchanged',
        ({ diameters: [, b] }) => ({ diameters: [0.0892, b] }),
      ],
      [
        'digits of a length exchanged: 736 mm read as 376',
        122,
        'length',
        'two digits exchanged',
        ({ lengths: [length] }) => {
          const digits = String(Math.round(length * 1000));
          return { lengths: [Number(`${digits[1]}${digits[0]}${digits[2]}`) / 1000] };
        },
      ],
    ];
  for (const [name, at, reading, slip, change] of slips)
    it(`${name}: flagged, and this is the slip that is most likely`, () => {
      const found = flagged(core(21, (piece, i) => (i === at ? change(piece) : {})));
      const odd = found.find(({ id }) => id === `${at}`)!;
      // beside it at most one good piece that lies off by chance
      expect(found.length).toBeLessThanOrEqual(2);
      const [first] = odd.flag!.slips;
      expect([first.reading, first.slip]).toEqual([reading, slip]);
      expect(first.probability).toBeGreaterThan(0.5);
      expect(first.density).toBeLessThan(odd.result!.ice + 20);
    });

  it('says that more than ice is impossible, and only then: 3 standard deviations of random and shared error', () => {
    const found = flagged(
      core(21, ({ lengths }, i) => (i === deep ? { lengths: [lengths[0] - 0.1] } : {})),
    )[0];
    expect(found.flag!.what).toBe('more than ice');
    const { value, randomSd, sharedSd } = found.result!.density;
    expect(found.flag!.by).toBeCloseTo((value - found.result!.ice) / Math.hypot(randomSd, sharedSd), 12);
    // IAPWS R10-06 at -15 degrees C and 1 atm
    expect(found.result!.ice).toBeCloseTo(918.87, 1);
  });

  it('needs no depths to find what is impossible', () => {
    const pieces = core(21, (piece, i) => (i === deep ? { lengths: [piece.lengths[0] - 0.1] } : {})).map(
      ({ top: _, bottom: __, ...piece }) => piece,
    );
    const found = coreDensity(pieces);
    expect(found.profile).toBeNull();
    expect(coreWater(found)).toBeNull();
    const odd = found.pieces.filter(({ flag }) => flag !== null);
    expect(odd.map(({ id }) => id)).toEqual([`${deep}`]);
    expect(odd[0].flag!.slips[0].reading).toBe('length');
  });

  it('keeps a flagged piece in the sums: the water at the bottom has all of its kilogram too much', () => {
    const clean = coreWater(coreDensity(core(21)))!;
    const heavy = coreWater(
      coreDensity(core(21, ({ gross }, i) => (i === deep ? { gross: gross! + 1 } : {}))),
    )!;
    const more = heavy.nodes.at(-1)!.value - clean.nodes.at(-1)!.value;
    expect(more).toBeCloseTo(1 / (Math.PI * 0.049 ** 2) / 1000, 2);
  });

  it('refuses a piece that is there twice', () => {
    const [piece] = core(3);
    expect(() => coreDensity([piece, piece])).toThrow(/piece 0: it is there twice/);
  });

  it('gives the same core the same numbers, and its w.e. depth that of the firn it was made from', () => {
    expect(coreDensity(core(3))).toEqual({ ...coreDensity(core(3)), profile: expect.anything() });
    const water = coreWater(coreDensity(core(3)))!;
    const bottom = water.nodes.at(-1)!;
    const miss = bottom.value - column.waterEquivalent(bottom.depth);
    expect(Math.abs(miss)).toBeLessThan(2 * Math.hypot(bottom.randomSd, bottom.sharedSd));
  });
});
