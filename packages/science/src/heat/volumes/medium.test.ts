import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { iceProperties } from '../../ice/properties.ts';
import { iceMedium, plainMedium } from './medium.ts';

describe('heat content of ice', () => {
  const ice = iceMedium(910);

  it('between two temperatures is that of IAPWS R10-06 to 0.5 %', () => {
    for (const [cold, warm] of [
      [233.15, 263.15],
      [253.15, 258.15],
      [263.15, 273.15],
    ] as const) {
      const enthalpy = iceProperties(warm).enthalpy - iceProperties(cold).enthalpy;
      const content = (ice.heatContent(warm) - ice.heatContent(cold)) / 910;
      expect(Math.abs(content / enthalpy - 1)).toBeLessThan(5e-3);
    }
  });

  it('gives its temperature back, frozen and melted, and its slope is that of the temperature', () => {
    fc.assert(
      fc.property(fc.double({ min: 190, max: 300, noNaN: true }), (temperature) => {
        const content = ice.heatContent(temperature);
        expect(Math.abs(ice.temperature(content) - temperature)).toBeLessThan(1e-9);
        const step = 200;
        if (Math.abs(temperature - 273.15) > 0.01) {
          const slope = (ice.temperature(content + step) - ice.temperature(content - step)) / (2 * step);
          expect(Math.abs(slope / ice.slope(content) - 1)).toBeLessThan(1e-4);
        }
      }),
    );
  });

  it('takes 333 426.5 J/kg at 0 degrees Celsius (Feistel & Wagner 2006) without getting warmer', () => {
    const half = (910 * 333_426.5) / 2;
    expect(ice.temperature(half)).toBe(273.15);
    expect(ice.slope(half)).toBe(0);
    expect(ice.melted(half)).toBeCloseTo(0.5, 14);
    expect(ice.melted(-5)).toBe(0);
    expect(ice.melted(3 * half)).toBe(1);
    expect(ice.temperature(2 * half + 910 * 4219.4)).toBeCloseTo(274.15, 9);
  });

  it('conducts by the variant that is named, water as the ice at 0', () => {
    expect(iceMedium(350, 'Sturm 1997').conductivity(250)).toBeCloseTo(0.180543, 6);
    expect(ice.conductivity(280)).toBe(ice.conductivity(273.15));
  });
});

describe('a plain material', () => {
  it('has one heat capacity, one conductivity, and does not melt', () => {
    const foam = plainMedium(0.037, 30, 1450);
    expect(foam.heatContent(283.15)).toBeCloseTo(10 * 30 * 1450, 8);
    expect(foam.temperature(-5 * 30 * 1450)).toBeCloseTo(268.15, 10);
    expect(foam.conductivity(300)).toBe(0.037);
    expect(foam.melted(1e9)).toBe(0);
  });
});
