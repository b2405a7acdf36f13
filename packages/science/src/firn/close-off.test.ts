import { describe, expect, it } from 'vitest';
import { publishedChecks } from '../published-checks.suite.ts';
import { closedShareOfPores, closeOffDensity, lockInDensity } from './close-off.ts';
import { exponentialDensity } from './exponential-profile.ts';

describe('close-off, lock-in, closed pores', () => {
  // Martinerie et al. 1994, constants from memory
  it.each([
    [216.15, 834.908],
    [230, 828.252],
    [240, 823.511],
    [248.15, 819.688],
    [253.15, 817.36],
    [263.15, 812.743],
  ])('Martinerie 1994 at %d K', (temperature, density) => {
    expect(Math.abs(closeOffDensity(temperature) - density)).toBeLessThan(0.01);
  });

  it('has the older constants and the convention under their names', () => {
    expect(closeOffDensity(240, 'Martinerie 1992')).toBeCloseTo(
      1000 / (1000 / 917 + 7.4e-4 * 240 - 0.057),
      9,
    );
    expect(closeOffDensity(240, '830')).toBe(830);
    expect(() => closeOffDensity(-20)).toThrow(/allowed: 200 to 273\.15 K/);
  });

  it('locks in 14 kg/m3 short of close-off, where 10 to 20 % of the pores are closed; 37 % are at close-off', () => {
    const closeOff = closeOffDensity(240);
    expect(lockInDensity(closeOff)).toBeCloseTo(closeOff - 14, 9);
    expect(closedShareOfPores(closeOff, closeOff)).toBeCloseTo(0.37, 12);
    const lockIn = closedShareOfPores(lockInDensity(closeOff), closeOff);
    expect(lockIn).toBeGreaterThan(0.1);
    expect(lockIn).toBeLessThan(0.2);
  });

  it('closes pores as density grows, never more than all', () => {
    let last = 0;
    for (let density = 500; density <= 917; density += 1) {
      const closed = closedShareOfPores(density, 823.5);
      expect(closed).toBeGreaterThanOrEqual(last);
      expect(closed).toBeLessThanOrEqual(1);
      last = closed;
    }
    expect(last).toBe(1);
  });

  it('Cuffey & Paterson 2010, eq. (2.2): 616.0254 kg/m3 at 20 m of 60 m of firn that begins at 350', () => {
    expect(exponentialDensity(20, 350, 60)).toBeCloseTo(616.0254, 4);
    expect(exponentialDensity(0, 350, 60)).toBe(350);
  });
});

const sheet = publishedChecks('02_firn')?.filter(({ id }) => id.startsWith('rho_closeoff'));
describe.skipIf(sheet === undefined)('every entry on close-off of the sheet of check values', () => {
  it('has 6 entries', () => expect(sheet).toHaveLength(6));
  for (const { id, inputs, expected } of sheet ?? [])
    it(id, () => {
      const { T_K, rhoi } = inputs as Record<string, number>;
      expect(Math.abs(closeOffDensity(T_K, 'Martinerie 1994', 1000 * rhoi) - expected)).toBeLessThan(0.01);
    });
});
