import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';

const off = (found: unknown, expected: number) => Math.abs(Number(found) / expected - 1);

describe('relations of ice by name, with units', () => {
  it('ice-properties gives all sixteen of Table 6 of IAPWS R10-06 at 100 K and 100 MPa', () => {
    const found = called('ice-properties', { temperature: '100 K', pressure: '100 MPa' });
    const table6 = {
      gibbs: -0.222296513088e6,
      gp: 0.10619338926e-2,
      gT: 0.261195122589e4,
      gpp: -0.941807981761e-13,
      gTp: 0.274505162488e-7,
      gTT: -0.866333195517e1,
      enthalpy: -0.483491635676e6,
      helmholtz: -0.328489902347e6,
      internalEnergy: -0.589685024936e6,
      entropy: -0.261195122589e4,
      heatCapacity: 866.333195517,
      density: 941.678203297,
      expansion: 0.258495528207e-4,
      pressureCoefficient: 0.291466166994e6,
      isothermalCompressibility: 0.886880048115e-10,
      isentropicCompressibility: 0.886060982687e-10,
    };
    expect(Object.keys(found).sort()).toEqual(Object.keys(table6).sort());
    for (const [name, value] of Object.entries(table6))
      expect(off(found[name]!.value, value), name).toBeLessThan(1e-9);
  });

  it('ice-properties carries the release’s own 0.02 % of the density, at 1 atm where no pressure is given', () => {
    const { density } = called('ice-properties', { temperature: '-20 °C' });
    expect(off(density!.value, 919.5652)).toBeLessThan(1e-7);
    expect(off(density!.sd, 0.18391)).toBeLessThan(1e-3);
  });

  it('ice-melting-point: -0.748351 °C under 10 MPa (gsw 3.6.16); -0.97 with air, from memory', () => {
    expect(
      off(called('ice-melting-point', { pressure: '10 MPa' }).meltingPoint!.value, -0.748351),
    ).toBeLessThan(2e-5);
    const air = called('ice-melting-point', { pressure: '100 bar', variant: 'air-saturated' });
    expect(off(air.meltingPoint!.value, -0.97)).toBeLessThan(1e-9);
  });

  it('ice-heat-capacity by variant at -20 °C', () => {
    const of = (variant: string) =>
      called('ice-heat-capacity', { temperature: '-20 °C', variant }).heatCapacity!.value;
    expect(off(of('IAPWS R10-06'), 1949.832)).toBeLessThan(1e-6);
    expect(off(of('Ritz 1987'), 1982.397)).toBeLessThan(1e-6);
    expect(off(of('Cuffey & Paterson 2010'), 1955.434)).toBeLessThan(1e-6);
  });

  it('ice-conductivity and firn-conductivity by variant (recomputed)', () => {
    expect(
      off(called('ice-conductivity', { temperature: '-30 °C' }).conductivity!.value, 2.457834),
    ).toBeLessThan(1e-6);
    const of = (density: string, variant: string) =>
      called('firn-conductivity', { density, variant }).conductivity!.value;
    expect(off(of('550 kg/m3', 'Calonne 2019'), 0.857256)).toBeLessThan(1e-6);
    expect(off(of('0.35 g/ml', 'Sturm 1997'), 0.180543)).toBeLessThan(1e-5);
    expect(() => of('700 kg/m3', 'Sturm 1997')).toThrow(/allowed: 0 to 600 kg\/m3/);
    expect(() => of('950 kg/m3', 'Calonne 2019')).toThrow(/917/);
  });

  it('ice-length-change: a metre measured at -5 was 0.516 mm shorter at -15 °C', () => {
    const found = called('ice-length-change', { length: '1 m', measuredAt: '-5 °C', reducedTo: '-15 °C' });
    expect(off(found.change!.value, -0.516)).toBeLessThan(1e-3);
    expect(off(found.length!.value, 0.999484)).toBeLessThan(1e-6);
    expect(off(Number(found.lengthFactor!.value) ** 3, Number(found.volumeFactor!.value))).toBeLessThan(
      1e-14,
    );
  });

  it('refuses ice above its triple point and a pressure below nothing', () => {
    expect(() => called('ice-properties', { temperature: '1 °C' })).toThrow(/0\.01/);
    expect(() => called('ice-properties', { temperature: '-5 °C', pressure: '-1 Pa' })).toThrow(
      /210000000|0 to/,
    );
  });
});
