import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inKelvin } from '../units.ts';
import { firnConductivity, yen1981 } from './conductivity/index.ts';
import { heatCapacityByLine } from './heat-capacity.ts';
import { latentHeatOfMelting, meltingPoint } from './melting-point.ts';
import { iceDensity, iceProperties } from './properties.ts';
import { lengthFactor, volumeFactor } from './thermal-size.ts';

describe('properties of ice at 1 atm', () => {
  // IAPWS R10-06, recomputed with the reference code of TEOS-10 (gsw 3.6.16, rho_ice, cp_ice, alpha_wrt_t_ice)
  const rows = [
    [0, 916.7218, 2096.695, 1.598404],
    [-5, 917.4492, 2059.858, 1.573979],
    [-10, 918.1658, 2023.098, 1.548901],
    [-20, 919.5652, 1949.832, 1.496676],
    [-30, 920.9174, 1876.949, 1.441509],
    [-40, 922.2192, 1804.507, 1.383167],
    [-50, 923.4674, 1732.571, 1.32141],
    [-60, 924.6586, 1661.208, 1.256005],
  ] as const;
  for (const [celsius, density, heat, expansion] of rows)
    it(`has the density, heat capacity and expansion of the reference code at ${celsius} degrees C`, () => {
      const ice = iceProperties(inKelvin(celsius));
      expect(Math.abs(ice.density - density)).toBeLessThan(1e-4);
      expect(Math.abs(ice.heatCapacity - heat)).toBeLessThan(1e-3);
      expect(Math.abs(ice.expansion * 1e4 - expansion)).toBeLessThan(1e-6);
    });
});

describe('properties of ice at 1 atm and -55 degrees C', () => {
  it('are 924.0703 kg/m3 and 1696.813 J/kg/K (IAPWS R10-06, recomputed)', () => {
    const { density, heatCapacity } = iceProperties(218.15);
    expect(Math.abs(density - 924.0703)).toBeLessThan(1e-4);
    expect(Math.abs(heatCapacity - 1696.813)).toBeLessThan(1e-3);
  });
});

describe('melting point and latent heat', () => {
  // gsw 3.6.16: t_freezing(SA = 0), latentheat_melting(0, 0)
  it.each([
    [101_325, 0.002519267, 1e-6],
    [1e6, -0.064374, 1e-5],
    [5e6, -0.365217, 1e-5],
    [10e6, -0.748351, 1e-5],
    [30e6, -2.358464, 1e-5],
  ])('melts at %d Pa where the reference code of TEOS-10 says', (pressure, celsius, tolerance) => {
    expect(Math.abs(meltingPoint(pressure) - inKelvin(celsius))).toBeLessThan(tolerance);
  });

  it('melts at 273.152519 K under 1 atm (IAPWS R10-06) and at 273.16 K at the triple point', () => {
    expect(Math.abs(meltingPoint(101_325) - 273.152519)).toBeLessThan(1e-6);
    expect(Math.abs(meltingPoint(611.657) - 273.16)).toBeLessThan(1e-6);
  });

  it('agrees with the melting curve IAPWS R14-08(2011), whose coefficients are from memory here', () => {
    const melting = (temperature: number) => {
      const theta = temperature / 273.16;
      const sum =
        0.119539337e7 * (1 - theta ** 3) +
        0.80818315e5 * (1 - theta ** 25.75) +
        0.33382686e4 * (1 - theta ** 103.75);
      return 611.657 * (1 + sum);
    };
    expect(melting(260) / 138.268e6).toBeCloseTo(1, 5);
    for (const temperature of [272, 270, 268, 266])
      expect(Math.abs(meltingPoint(melting(temperature)) - temperature)).toBeLessThan(5e-3);
  });

  it('takes 333 426.5 J/kg to melt at 1 atm, 333 444.87 at the triple point', () => {
    expect(Math.abs(latentHeatOfMelting(101_325) - 333_426.517)).toBeLessThan(0.1);
    expect(Math.abs(latentHeatOfMelting(611.657) - 333_444.866)).toBeLessThan(0.05);
  });

  it('has the handbooks’ straight lines under their names', () => {
    expect(meltingPoint(0, 'pure')).toBe(273.16);
    expect(273.16 - meltingPoint(1e7, 'air-saturated')).toBeCloseTo(0.98, 10);
    expect(273.16 - meltingPoint(1e7, 'Luethi 2002')).toBeCloseTo(0.79, 10);
    expect(Math.abs(meltingPoint(1e7, 'pure') - meltingPoint(1e7))).toBeLessThan(0.02);
    expect(() => meltingPoint(2e8)).toThrow(/allowed: 0 to 100000000 Pa/);
  });
});

describe('heat capacity by straight lines', () => {
  it('gives 1982.397 (Ritz 1987) and 1955.434 J/kg/K (Cuffey & Paterson 2010) at -20 degrees C', () => {
    expect(heatCapacityByLine(253.15, 'Ritz 1987')).toBeCloseTo(1982.397, 3);
    expect(heatCapacityByLine(253.15, 'Cuffey & Paterson 2010')).toBeCloseTo(1955.4343, 3);
    expect(() => heatCapacityByLine(-20, 'Ritz 1987')).toThrow(/temperature is -20 K/);
  });
});

describe('conductivity variants by name', () => {
  it.each([
    [0, 2.071515],
    [-10, 2.193022],
    [-20, 2.321655],
    [-30, 2.457834],
    [-50, 2.754623],
  ])('Yen 1981 at %d degrees C', (celsius, expected) => {
    expect(Math.abs(yen1981(inKelvin(celsius)) - expected)).toBeLessThan(1e-6);
  });

  // recomputed from the published equations
  it.each([
    ['Sturm 1997', 200, 0.06532],
    ['Sturm 1997', 350, 0.180543],
    ['Sturm 1997', 500, 0.44125],
    ['Sturm 1997 (logarithmic)', 350, 0.188582],
    ['Calonne 2011', 200, 0.0994],
    ['Calonne 2011', 350, 0.2872],
    ['Calonne 2011', 500, 0.5875],
    ['Calonne 2019', 350, 0.311869],
    ['Calonne 2019', 450, 0.491599],
    ['Calonne 2019', 550, 0.857256],
    ['Calonne 2019', 830, 1.974822],
  ] as const)('%s at %d kg/m3 and -20 degrees C', (name, density, expected) => {
    expect(Math.abs(firnConductivity[name](density, 253.15) - expected)).toBeLessThan(1e-6);
  });

  it('Van Dusen lies below Schwerdtfeger everywhere', () => {
    for (let density = 250; density <= 900; density += 50)
      expect(firnConductivity['Van Dusen 1929'](density)).toBeLessThan(
        firnConductivity['Schwerdtfeger 1963'](density, 253.15),
      );
    const ice = iceDensity(253.15);
    expect(firnConductivity['Schwerdtfeger 1963'](ice, 253.15)).toBeCloseTo(yen1981(253.15), 12);
  });

  // recomputed in Python from the published equations; Jordan 1991 with k_i 2.29 and k_a 0.023 (those and Yen from memory)
  it.each([
    ['Yen 1981 (snow)', 350, 0.307347],
    ['Yen 1981 (snow)', 610, 0.875805],
    ['Jordan 1991', 350, 0.391359],
    ['Jordan 1991', 820, 1.851453],
    ['Marchenko 2019', 540, 0.9014],
  ] as const)('%s at %d kg/m3', (name, density, expected) => {
    expect(Math.abs(firnConductivity[name](density) - expected)).toBeLessThan(1e-5);
  });

  it('firn of 917 kg/m3 conducts as ice does, at any temperature (Calonne 2019), Jordan 1991 as its own ice', () => {
    fc.assert(
      fc.property(fc.double({ min: 190, max: 273.16, noNaN: true }), (temperature) => {
        expect(firnConductivity['Calonne 2019'](917, temperature) / yen1981(temperature)).toBeCloseTo(1, 6);
      }),
    );
    expect(Math.abs(firnConductivity['Jordan 1991'](917) - 2.29)).toBeLessThan(1e-3);
  });

  it('Sturm 1997 refuses firn, where it was never measured', () => {
    expect(() => firnConductivity['Sturm 1997'](650)).toThrow(/allowed: 0 to 600 kg\/m3/);
  });
});

describe('sizes at another temperature', () => {
  it('is 1 at the same temperature, and there and back again is 1', () => {
    expect(lengthFactor(253.15, 253.15)).toBe(1);
    expect(lengthFactor(268.15, 243.15) * lengthFactor(243.15, 268.15)).toBeCloseTo(1, 14);
  });

  it('follows the expansion coefficient: 52 micrometres a metre and degree near -10', () => {
    const { expansion } = iceProperties(263.15);
    expect((lengthFactor(262.65, 263.65) - 1) / (expansion / 3)).toBeCloseTo(1, 4);
    expect(volumeFactor(263.15, 243.15)).toBeCloseTo(lengthFactor(263.15, 243.15) ** 3, 14);
  });

  it('shortens core that was warmer on the bench than in the hole', () => {
    expect(lengthFactor(268.15, 263.15)).toBeLessThan(1);
    expect(1000 * (1 - lengthFactor(268.15, 263.15))).toBeCloseTo(0.26, 2);
  });
});
