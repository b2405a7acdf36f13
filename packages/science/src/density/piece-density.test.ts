import { describe, expect, it } from 'vitest';
import { publishedChecks } from '../published-checks.suite.ts';
import { seeded } from '../random/index.ts';
import { defaultDensityAssumptions } from './assumptions.ts';
import { cylinderDensity } from './cylinder.ts';
import { pieceDensity } from './piece-density.ts';
import { poolDiameters } from './pool-diameters.ts';
import type { PieceReadings } from './readings.ts';

const plain = { sawnOff: 0, sawnOffSd: 0, missing: 0, missingSd: 0 };
const bench = { massSd: 0.005, lengthSd: 0.002, diameterSd: 0.0002, sharedDiameterSd: 0 };

describe('density of a cylinder', () => {
  // rho = 4 m/(pi d^2 L), u^2 as in JCGM 100:2008 eq. (10), recomputed by hand
  it.each([
    [4.2, 0.0982, 0.94, 589.941, 0.55454454, 0.00474722],
    [6.55, 0.098, 0.995, 872.72253, 0.86835891, 0.00461332],
    [2.1, 0.075, 0.6, 792.23794, 0.47534276, 0.00672492],
  ])('%d kg of %d m across and %d m long', (mass, diameter, length, density, water, relative) => {
    const found = cylinderDensity({ ...plain, ...bench, mass, diameter, length });
    expect(Math.abs(found.density.value - density)).toBeLessThan(1e-4);
    expect(Math.abs(found.density.randomSd / density - relative)).toBeLessThan(1e-8);
    expect(Math.abs(found.waterEquivalent.value - water)).toBeLessThan(1e-8);
  });

  it('keeps the shared diameter error apart: the two together are what one error of that size would be', () => {
    const one = cylinderDensity({ ...plain, ...bench, mass: 4.2, diameter: 0.0982, length: 0.94 });
    const two = cylinderDensity({
      ...plain,
      ...bench,
      diameterSd: 0.00012,
      sharedDiameterSd: 0.00016,
      mass: 4.2,
      diameter: 0.0982,
      length: 0.94,
    });
    expect(Math.hypot(two.density.randomSd, two.density.sharedSd)).toBeCloseTo(one.density.randomSd, 10);
    expect(two.density.sharedSd / two.density.value).toBeCloseTo((2 * 0.00016) / 0.0982, 12);
  });

  it('lets the length cancel in the water equivalent: 2 cm more of it change the density, not the water', () => {
    const water = (length: number) =>
      cylinderDensity({ ...plain, ...bench, mass: 4.2, diameter: 0.0982, length }).waterEquivalent;
    expect(water(0.96).value).toBeCloseTo(water(0.94).value, 12);
    expect(water(0.94).randomSd / water(0.94).value).toBeCloseTo(
      Math.hypot(0.005 / 4.2, (2 * 0.0002) / 0.0982),
      12,
    );
  });

  it('propagates as a simulation of the same readings does, with wedge and saw cut', () => {
    const piece = {
      mass: 3.1,
      massSd: 0.005,
      length: 0.8,
      lengthSd: 0.002,
      diameter: 0.098,
      diameterSd: 0.0003,
      sharedDiameterSd: 0.0002,
      sawnOff: 0.05,
      sawnOffSd: 0.001,
      missing: 2e-4,
      missingSd: 5e-5,
    };
    const found = cylinderDensity(piece);
    const random = seeded(7);
    const draws = Array.from({ length: 40_000 }, () => {
      const d = piece.diameter + 0.0003 * random.normal() + 0.0002 * random.normal();
      const length = piece.length + 0.002 * random.normal();
      const volume =
        (Math.PI / 4) * d * d * (length - 0.05 - 0.001 * random.normal()) - 2e-4 - 5e-5 * random.normal();
      const density = (3.1 + 0.005 * random.normal()) / volume;
      return [density, (density * length) / 1000];
    });
    for (const [k, value] of [found.density, found.waterEquivalent].entries()) {
      const mean = draws.reduce((sum, draw) => sum + draw[k], 0) / draws.length;
      const sd = Math.sqrt(draws.reduce((sum, draw) => sum + (draw[k] - mean) ** 2, 0) / draws.length);
      expect(mean / value.value).toBeCloseTo(1, 3);
      expect(Math.hypot(value.randomSd, value.sharedSd) / sd).toBeCloseTo(1, 1);
    }
  });
});

const piece: PieceReadings = {
  id: '12-1',
  cutterSet: 'set 1',
  gross: 4.35,
  tare: 0.15,
  lengths: [0.94],
  diameters: [0.0982],
  sawnEnds: 0,
};
const densityOf = (changed: Partial<PieceReadings>) => {
  const readings = { ...piece, ...changed };
  const { diameters } = poolDiameters([readings], defaultDensityAssumptions);
  return pieceDensity(readings, diameters[0], defaultDensityAssumptions);
};

describe('density of a piece', () => {
  it('takes the tare off and means several lengths', () => {
    expect(densityOf({})!.density.value).toBeCloseTo(589.941, 3);
    expect(densityOf({ lengths: [0.93, 0.95] })!.density.value).toBeCloseTo(589.941, 3);
  });

  it('takes an elliptic section for a circle of the same area', () => {
    expect(densityOf({ diameters: [[0.1, 0.0964324]] })!.density.value).toBeCloseTo(589.941, 3);
  });

  it('is surer of a length between saw cuts, and less sure of one whose readings disagree', () => {
    const sd = (changed: Partial<PieceReadings>) => densityOf(changed)!.lengthSd;
    expect(sd({ sawnEnds: 2 })).toBeLessThan(sd({ sawnEnds: 1 }));
    expect(sd({ sawnEnds: 1 })).toBeLessThan(sd({}));
    expect(sd({ lengths: [0.94, 0.94, 0.94] })).toBeLessThan(sd({}));
    expect(sd({ lengths: [0.92, 0.94, 0.96] })).toBeGreaterThan(sd({ lengths: [0.94, 0.94, 0.94] }));
  });

  it('counts off what is missing and what was sawn off, and puts the latter back into the water equivalent', () => {
    const whole = densityOf({})!;
    const split = densityOf({
      gross: 0.15 + 4.2 / 2,
      wedges: [{ kind: 'side', depth: 0.0491, length: 0.94 }],
    })!;
    expect(split.density.value).toBeCloseTo(whole.density.value, 6);
    expect(split.density.randomSd).toBeGreaterThan(whole.density.randomSd);
    const sawn = densityOf({ gross: 0.15 + (4.2 * 0.9) / 0.94, sawnOff: 0.04 })!;
    expect(sawn.density.value).toBeCloseTo(whole.density.value, 6);
    expect(sawn.waterEquivalent.value).toBeCloseTo(whole.waterEquivalent.value, 9);
  });

  it('counts off a share that somebody judged missing, and is the less sure for it', () => {
    const whole = densityOf({})!;
    const chipped = densityOf({ gross: 0.15 + 4.2 * 0.9, missingShare: 0.1 })!;
    expect(chipped.density.value).toBeCloseTo(whole.density.value, 6);
    // a quarter of a tenth of the whole is 2.8 % of what is left
    expect(chipped.density.randomSd / chipped.density.value).toBeCloseTo(
      Math.hypot(whole.density.randomSd / whole.density.value, 0.025 / 0.9),
      3,
    );
    expect(() => densityOf({ missingShare: 1 })).toThrow(/missing share is 1; allowed: 0 to 0\.95/);
  });

  it('is null where it was not weighed or not measured', () => {
    const { gross: _, ...unweighed } = piece;
    const { diameters } = poolDiameters([piece], defaultDensityAssumptions);
    expect(pieceDensity(unweighed, diameters[0], defaultDensityAssumptions)).toBeNull();
    expect(densityOf({ lengths: [] })).toBeNull();
    expect(densityOf({ diameters: [] })).toBeNull();
  });

  it('refuses readings that no core has, by name and range: units mixed up', () => {
    expect(() => densityOf({ lengths: [94] })).toThrow(/piece 12-1: length is 94 m; allowed: 0\.005 to 6 m/);
    expect(() => densityOf({ diameters: [98.2] })).toThrow(/diameter is 98\.2 m; allowed: 0\.02 to 0\.3 m/);
    expect(() => densityOf({ gross: 4350 })).toThrow(/mass is 4350 kg/);
    expect(() => densityOf({ tare: 5 })).toThrow(/the tare is 5 kg of 4\.35 kg/);
    expect(() => densityOf({ sawnOff: 1 })).toThrow(/1 m were sawn off 0\.94 m/);
    expect(() => densityOf({ wedges: [{ kind: 'side', depth: 0.098, length: 2 }] })).toThrow(
      /less than the piece's/,
    );
  });
});

const sheet = publishedChecks('12_melt')?.filter(({ id }) => id.startsWith('density.'));
describe.skipIf(sheet === undefined)('every entry on density of the sheet of check values', () => {
  it('has 3 entries', () => expect(sheet).toHaveLength(3));
  for (const { id, inputs, expected, tol } of sheet ?? [])
    it(id, () => {
      const { m, d, L, u_m, u_d, u_L } = inputs as Record<string, number>;
      const found = cylinderDensity({
        ...plain,
        mass: m,
        massSd: u_m,
        length: L,
        lengthSd: u_L,
        diameter: d,
        diameterSd: u_d,
        sharedDiameterSd: 0,
      });
      const { rho, we_m, u_rel, u_rho } = expected as Record<string, number>;
      const tolerance = Number(tol);
      expect(Math.abs(found.density.value - rho)).toBeLessThan(tolerance);
      expect(Math.abs(found.waterEquivalent.value - we_m)).toBeLessThan(tolerance);
      expect(Math.abs(found.density.randomSd / found.density.value - u_rel)).toBeLessThan(tolerance);
      expect(Math.abs(found.density.randomSd - u_rho)).toBeLessThan(tolerance);
    });
});
