import ucum from '@lhncbc/ucum-lhc';
import { describe, expect, it } from 'vitest';
import { QuantityError } from '../quantity-error.ts';
import { convert } from './unit.ts';

const oracle = ucum.UcumLhcUtils.getInstance();

describe('units', () => {
  // outside check: the reference converter of UCUM's maintainers, general purpose
  it.each([
    [12.5, 'cm', 'm'],
    [3.2, 'g/cm3', 'kg/m3'],
    [7, 'ug/kg', 'ng/g'],
    [2.5, 'MPa', 'bar'],
    [36, 'km/h', 'm/s'],
    [2.2, 'a', 'd'],
    [5.1, 'a_t', 'd'],
    [5.3, 'a_g', 'h'],
    [-18.2, 'Cel', 'K'],
    [251.3, 'K', 'Cel'],
    [4.1, '%', '[ppth]'],
    [30, 'deg', 'rad'],
    [8.3, 'kW.h', 'MJ'],
    [9.1, 'mBq/kg', 'Bq/t'],
    [1.7, 'umol/l', 'mmol/m3'],
    [1e-24, '1/s/Pa3', '1/a/MPa3'],
  ] as const)('%s %s in %s is what UCUM says', (value, from, to) => {
    const said = oracle.convertUnitTo(from, value, to);
    expect(said.status).toBe('succeeded');
    expect(convert(value, from, to) / (said.toVal as number)).toBeCloseTo(1, 12);
  });

  it('reads what a hand writes', () => {
    expect(convert(-18, '°C', 'K')).toBeCloseTo(255.15, 10);
    expect(convert(0.4, 'g/cm³', 'kg/m3')).toBeCloseTo(400, 10);
    expect(convert(3, 'µm', 'mm')).toBeCloseTo(0.003, 15);
    expect(convert(0.45, 'm w.e./yr', 'mm w.e./a')).toBeCloseTo(450, 10);
    expect(convert(0.45, 'm we', 'kg/m2')).toBeCloseTo(450, 10);
    expect(convert(2, 'days', 'h')).toBe(48);
    expect(convert(-30, '‰', '1')).toBeCloseTo(-0.03, 15);
  });

  it('shifts no zero for a difference', () => {
    expect(convert(0.5, 'Cel', 'K', '', true)).toBe(0.5);
    expect(convert(2, 'W/m2/Cel', 'W/m2/K')).toBe(2);
  });

  it('refuses metres of snow for metres of water, and says what it wants', () => {
    expect(() => convert(0.4, 'm', 'm w.e.', 'accumulation')).toThrow(QuantityError);
    expect(() => convert(0.4, 'm/a', 'm w.e./a', 'accumulation')).toThrow(
      /accumulation: "m\/a" is a speed; allowed: a mass on an area in a time/,
    );
  });

  it.each(['furlong', 'm//s', 'm^2', 'constructor', '__proto__', 'kg/m33'])('knows no unit "%s"', (unit) => {
    expect(() => convert(1, unit, 'm')).toThrow(QuantityError);
  });
});
