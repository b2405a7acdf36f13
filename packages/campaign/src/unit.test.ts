import { describe, expect, it } from 'vitest';
import type { MeasureField } from './kind.ts';
import { kindOf } from './kinds.ts';
import { readReading } from './reading.ts';
import { sayMeasure } from './say.ts';
import { type Dimension, inUnit, unitCalled, units } from './unit.ts';

const read = (text: string, quantity: Dimension): number | null => {
  const unit = Object.keys(units[quantity])[0];
  const field = { name: 'tried', quantity, unit, usual: [0, 1] } as unknown;
  const result = readReading(text, field as MeasureField, kindOf('piece')!);
  return result.ok ? result.reading.value : null;
};

/**
 * What a number in each unit is in the base unit, from outside; every value differs from every other of its
 * dimension. BIPM, The International System of Units (SI Brochure), 9th edition (2019): decimal prefixes table 7;
 * minute, hour, day, degree, litre, tonne table 8. Unified Code for Units of Measure (UCUM) 2.1: [in_i] 2.54 cm, [ft_i]
 * 12 [in_i], [kn_i] 1852 m/h, kgf 9.80665 N, gon 0.9 deg, [degF] (5/9 K, 459.67), [ppth] 1e-3. Written from memory of
 * both; each is a definition. The same came out of scipy.constants 1.17 (SciPy, general-purpose).
 */
const outside: readonly (readonly [Dimension, string, number])[] = [
  ['length', '3 m', 3],
  ['length', '3 dm', 0.3],
  ['length', '3 cm', 0.03],
  ['length', '3 mm', 0.003],
  ['length', '3 km', 3000],
  ['length', '3 in', 0.0762],
  ['length', '3 ft', 0.9144],
  ['mass', '7 kg', 7],
  ['mass', '7 g', 0.007],
  ['mass', '7 mg', 0.000007],
  ['mass', '7 t', 7000],
  ['temperature', '-40 °F', -40],
  ['temperature', '-13 °F', -25],
  ['temperature', '-21 °C', -21],
  ['temperature', '253.15 K', -20],
  ['temperature', '0 K', -273.15],
  ['angle', '30 °', 30],
  ['angle', '30 gon', 27],
  ['angle', '1 rad', 57.29577951308232],
  ['current', '4 A', 4],
  ['current', '4 mA', 0.004],
  ['rotation', '90 rpm', 90],
  ['force', '2 N', 2],
  ['force', '2 kN', 2000],
  ['force', '2 daN', 20],
  ['force', '2 kgf', 19.6133],
  ['volume', '6 l', 0.006],
  ['volume', '6 ml', 0.000006],
  ['volume', '7 cm³', 0.000007],
  ['volume', '6 m³', 6],
  ['duration', '5 s', 5],
  ['duration', '5 min', 300],
  ['duration', '5 h', 18_000],
  ['duration', '5 d', 432_000],
  ['speed', '9 m/s', 9],
  ['speed', '9 m/min', 0.15],
  ['speed', '9 cm/s', 0.09],
  ['speed', '9 km/h', 2.5],
  ['speed', '9 kn', 4.63],
  ['density', '451 kg/m³', 451],
  ['density', '0.452 g/cm³', 452],
  ['density', '0.453 Mg/m3', 453],
  ['share', '8 %', 0.08],
  ['share', '8 ‰', 0.008],
];

describe('units', () => {
  it.each(outside)('%s: %s', (dimension, text, base) => {
    expect(read(text, dimension)).toBe(base);
  });

  it('every unit of the tables is in that check, no value twice in a dimension', () => {
    const checked = new Set(outside.map(([dimension, text]) => `${dimension} ${text.replace(/^\S+ /, '')}`));
    for (const [dimension, table] of Object.entries(units))
      for (const unit of Object.keys(table))
        if (unit !== '1') expect(checked).toContain(`${dimension} ${unit}`);
    const values = outside.map(([dimension, , base]) => `${dimension} ${base}`);
    expect(new Set(values).size).toBe(values.length);
  });

  it('inUnit tells a base value in any unit again', () => {
    for (const [dimension, text, base] of outside) {
      const [number, unit] = text.split(' ') as [string, string];
      expect(inUnit(base, dimension, unit)).toBeCloseTo(Number(number), 9);
    }
  });

  it('unitCalled: a capital matters where it tells two units apart, and nowhere else', () => {
    expect(unitCalled('mass', 'Mg')?.unit).toBe('t');
    expect(unitCalled('mass', 'MG')?.unit).toBe('mg');
    expect(unitCalled('force', 'KN')?.unit).toBe('kN');
    expect(unitCalled('speed', 'KN')?.unit).toBe('kn');
    for (const word of ['__proto__', 'constructor', '', 'cm2'])
      expect(unitCalled('length', word)).toBeUndefined();
  });

  it('sayMeasure writes a bound in the unit of its field, without noughts behind it', () => {
    expect(sayMeasure(1.5, 'length', 'cm')).toBe('150 cm');
    expect(sayMeasure(-70, 'temperature', '°C')).toBe('-70 °C');
    expect(sayMeasure(15, 'angle', '°')).toBe('15°');
    expect(sayMeasure(0.3, 'share', '%')).toBe('30 %');
    expect(sayMeasure(0.3, 'share', '1')).toBe('0.3');
    expect(sayMeasure(0.0005, 'length', 'mm')).toBe('0.5 mm');
  });
});
