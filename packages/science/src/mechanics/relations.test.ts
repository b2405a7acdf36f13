import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';
import { relationNamed } from '../relations/index.ts';

describe('hole-closure', () => {
  // Nye 1953, A of Table 3.4; recomputed in Python
  const dry = {
    diameter: '126 mm',
    depth: '100 m',
    temperature: '-10 °C',
    meanDensity: '900 kg/m3',
    clearance: '2 mm',
    gravity: '9.81 m/s2',
  };

  it('of a dry hole gives rate, diameter after ten days and days until 2 mm are lost', () => {
    const found = called('hole-closure', dry);
    expect(found.excess.value).toBeCloseTo(882.9, 9);
    expect(found.rate.value).toBeCloseTo(8.92152e-9 * 86_400 * 100, 8);
    expect(found.diameterThen.value).toBeCloseTo(125.0325, 5);
    expect(found.lossTime.value).toBeCloseTo(20.7576, 3);
  });

  it('says the shortest time that any published creep parameter gives', () => {
    const { lossTime, shortestLossTime } = called('hole-closure', dry);
    expect(shortestLossTime.value).toBeLessThan(lossTime.value as number);
    const fastest = called('hole-closure', { ...dry, variant: 'Paterson & Budd 1982' });
    expect(fastest.lossTime.value).toBeCloseTo(shortestLossTime.value as number, 9);
  });

  it('carries the doubt of the temperature: half a degree is some 5 % there, and nothing of its own', () => {
    const { rate } = called('hole-closure', { ...dry, temperature: '-12 ± 0.5 °C' });
    expect(rate.parts.map(({ from }) => from)).toEqual(['temperature']);
    expect((rate.sd as number) / (rate.value as number)).toBeCloseTo(Math.log(3.5 / 2.1) / 10, 3);
  });

  it('with fluid to the surface is slower, with a heavy one the hole widens and no time is named', () => {
    const wet = called('hole-closure', { ...dry, fluidDensity: '850 kg/m3', fluidLevel: '20 m' });
    expect(wet.excess.value).toBeCloseTo((900 * 100 - 850 * 80) * 0.00981, 9);
    const heavy = called('hole-closure', { ...dry, fluidDensity: '1100 kg/m3' });
    expect(heavy.rate.value).toBeLessThan(0);
    expect(heavy.lossTime.value).toBeNull();
    expect(heavy.shortestLossTime.value).toBeNull();
  });

  it('warns, and never speaks of what is safe', () => {
    const { caution = '' } = relationNamed('hole-closure')!;
    for (const words of ['primary creep', 'firn', 'local rules', 'the driller decides', 'not that a drill'])
      expect(caution).toContain(words);
    expect(caution).not.toMatch(/safe/i);
  });

  it('refuses a warm hole, a clearance as wide as the hole, a temperature without unit', () => {
    expect(() => called('hole-closure', { ...dry, temperature: '1 °C' })).toThrow(
      /temperature of the ice is 1 Cel; allowed: -50 to 0/,
    );
    expect(() => called('hole-closure', { ...dry, clearance: '126 mm' })).toThrow(
      /below the diameter of 0.126 m/,
    );
    expect(() => called('hole-closure', { ...dry, temperature: '-10' })).toThrow(/the unit is missing/);
  });
});

describe('hole-closure-along', () => {
  it('gives at each layer what hole-closure gives there', () => {
    const along = called('hole-closure-along', {
      diameter: '118 mm',
      bottoms: '30 80 140 m',
      densities: '560 800 900 kg/m3',
      temperatures: '-18 -15 -12 °C',
      days: '25 d',
    });
    const one = called('hole-closure', {
      diameter: '118 mm',
      depth: '140 m',
      temperature: '-12 °C',
      meanDensity: `${(560 * 30 + 800 * 50 + 900 * 60) / 140} kg/m3`,
      clearance: '3 mm',
      days: '25 d',
    });
    const diameters = along.diameters.value as readonly number[];
    expect(diameters[2]).toBeCloseTo(one.diameterThen.value as number, 9);
    expect(along.narrowest.value).toBe(diameters[2]);
    expect(diameters[0]).toBeGreaterThan(diameters[1]);
  });
});

describe('cable-stretch', () => {
  it('adds stretch by load and by temperature to the counter, less slack', () => {
    // 160 m hang: recomputed in Python
    const found = called('cable-stretch', {
      counter: '160.5 m',
      load: '72 kg',
      cableMass: '0.13 kg/m',
      stiffness: '480 kN',
      top: '-4 °C',
      bottom: '-16 °C',
      calibrated: '12 °C',
      slack: '0.5 m',
    });
    const elastic = ((72 * 160 + (0.13 * 160 ** 2) / 2) * 9.80665) / 480;
    expect(found.elastic.value).toBeCloseTo(elastic, 9);
    expect(found.thermal.value).toBeCloseTo(-1.2e-5 * 160_000 * 22, 9);
    expect(found.depth.value).toBeCloseTo(160 + (found.stretch.value as number) / 1000, 9);
  });

  it('says that it judges no load', () => {
    expect(relationNamed('cable-stretch')!.caution).toMatch(/nothing here says what the cable bears/);
  });
});

describe('relations of drill and winch', () => {
  it('penetration, chips, run-time, hole-time, core-break and hoisting-power give what their functions do', () => {
    const penetration = called('penetration', {
      cutters: '3',
      cut: '1.5 mm',
      turns: '72 1/min',
      diameter: '98 mm',
    });
    expect(penetration.rate.value).toBeCloseTo(324, 9);
    expect(penetration.perMetre.value).toBeCloseTo(1 / 0.324, 9);
    const chips = called('chips', {
      hole: '126 mm',
      core: '100 mm',
      length: '1 m',
      density: '900 kg/m3',
      chamber: '12 l',
    });
    // recomputed in Python: 8.306999 l
    expect(chips.volume.value).toBeCloseTo(8.306999, 5);
    expect(chips.filled.value).toBeCloseTo(830.6999 / 12, 4);
    expect(chips.longest.value).toBeCloseTo(12 / 8.306999, 5);
    const pace = { lowering: '1.0 m/s', hoisting: '0.8 m/s', rate: '0.3 m/min', handling: '8 min' };
    const hole = called('hole-time', { to: '100 m', length: '1.0 m', ...pace });
    expect(hole.runs.value).toBe(100);
    expect(hole.time.value).toBeCloseTo(22.01736, 5);
    const run = called('run-time', { depth: '60 m', length: '0.9 m', ...pace });
    expect(run.time.value).toBeCloseTo((60 + 180 + 60.9 / 0.8 + 480) / 60, 9);
    expect(called('core-break', { diameter: '100 mm' }).force.value).toBeCloseTo(7.853982, 6);
    expect(
      called('hoisting-power', { mass: '150 kg', speed: '0.5 m/s', efficiency: '0.7' }).power.value,
    ).toBeCloseTo(1050.713, 3);
  });

  it('creep-parameter, glen-strain-rate and overburden give what their functions do', () => {
    expect(called('creep-parameter', { temperature: '-20 °C' }).parameter.value).toBeCloseTo(1.2e-25, 30);
    expect(
      called('glen-strain-rate', { temperature: '-10 °C', stress: '100 kPa' }).strainRate.value,
    ).toBeCloseTo(0.01104516, 8);
    const { pressure, meanDensity } = called('overburden', {
      bottoms: '10 30 m',
      densities: '450 650 kg/m3',
      depth: '40 m',
    });
    expect(meanDensity.value).toBeCloseTo((4500 + 650 * 30) / 40, 9);
    expect(pressure.value).toBeCloseTo((24_000 * 9.80665) / 1000, 9);
  });
});
