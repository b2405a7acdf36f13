import { describe, expect, it } from 'vitest';
import { called } from '../relations/called.suite.ts';
import { heatRelations } from './relations.ts';

const off = (found: unknown, expected: number) => Math.abs(Number(found) - expected);

const box = {
  diameter: '100 mm',
  cores: '6',
  length: '1 m',
  snow: '5 cm',
  material: 'EPS, 30 kg/m3',
  insulation: '50 mm',
  start: '-25 °C',
  ambient: '5 °C',
} as const;

describe('relations of heat by name, with units', () => {
  it('diffusivity of ice at -20 (recomputed)', () => {
    const texts = { conductivity: '2.32 W/m/K', density: '919.565 kg/m3', heatCapacity: '1949.83 J/kg/K' };
    expect(off(called('diffusivity', texts).diffusivity!.value, 1.293924e-6)).toBeLessThan(1e-12);
  });

  it('heat-series: cylinder, Bi 10, Fo 0.2 in air and held (recomputed)', () => {
    const air = called('heat-series', { biot: '10', fourier: '0.2', place: '1' });
    expect(off(air.centre!.value, 0.6002323)).toBeLessThan(1e-6);
    expect(air.place!.value).toBe(air.surface!.value);
    const held = called('heat-series', { shape: 'slab', surface: 'held', fourier: '0.1' });
    expect(off(held.centre!.value, 0.9493054)).toBeLessThan(1e-6);
    expect(held.place!.value).toBe(held.centre!.value);
  });

  it('heisler-term: sphere of Bi 1 has pi/2 and 4/pi', () => {
    const { zeta, coefficient } = called('heisler-term', { shape: 'sphere', biot: '1' });
    expect(off(zeta!.value, Math.PI / 2)).toBeLessThan(1e-12);
    expect(off(coefficient!.value, 4 / Math.PI)).toBeLessThan(1e-12);
  });

  it('bare-core-warming: 100 mm from -25 into -5 after 30 min (recomputed)', () => {
    const found = called('bare-core-warming', {
      diameter: '10 cm',
      time: '0.5 h',
      start: '-25 °C',
      ambient: '-5 °C',
    });
    expect(off(found.centre!.value, -20.3037)).toBeLessThan(1e-4);
    expect(off(found.surface!.value, -19.0655)).toBeLessThan(1e-4);
    expect(off(found.lumped!.value, -19.4922)).toBeLessThan(1e-4);
  });

  it('half-space-warming, held and in air (recomputed)', () => {
    const at = { depth: '5 cm', time: '1 h', diffusivity: '1.3e-6 m2/s' };
    expect(off(called('half-space-warming', at).felt!.value, 0.60528783)).toBeLessThan(1e-8);
    const air = called('half-space-warming', { ...at, surface: 'in air' });
    expect(off(air.felt!.value, 0.132061)).toBeLessThan(1e-8);
  });

  it('damping-depth of a year (recomputed)', () => {
    const found = called('damping-depth', { diffusivity: '1e-6 m2/s', period: '1 a' });
    expect(off(found.dampingDepth!.value, 3.1694)).toBeLessThan(1e-5);
  });

  it('lumped-box with errors: 7.50709 h (recomputed), 4 % on the conductivity is 4 % on the time', () => {
    const { time, timeConstant } = called('lumped-box', {
      mass: '60 kg',
      area: '1.6 m2',
      thickness: '50 mm',
      conductivity: '0.034 ± 0.00136 W/m/K',
      start: '-25 °C',
      ambient: '20 °C',
    });
    expect(off(time!.value, 7.50709)).toBeLessThan(1e-5);
    expect(off(timeConstant!.value, 29.87132)).toBeLessThan(1e-5);
    expect(off(time!.sd, 0.04 * 7.507)).toBeLessThan(0.01);
  });

  it('layered-conduction: one layer is the series of a slab; lists must be as long', () => {
    const texts = {
      shape: 'slab',
      thicknesses: '5 cm',
      conductivities: '2.32 W/m/K',
      densities: '917 kg/m3',
      heatCapacities: '1950 J/kg/K',
      film: '46.4 W/m2/K',
      start: '-25 °C',
      ambient: '-5 °C',
    };
    // Bi 1; Fo 0.2 after 385.372 s: middle 0.9506418, surface 0.6433908 (recomputed)
    const found = called('layered-conduction', { ...texts, time: '385.3717 s' });
    expect(off(found.middle!.value, -5 - 20 * 0.9506418)).toBeLessThan(0.02);
    expect(off((found.faces!.value as number[])[0], -5 - 20 * 0.6433908)).toBeLessThan(0.01);
    expect(() => called('layered-conduction', { ...texts, densities: '917 300 kg/m3', time: '1 h' })).toThrow(
      /2 densities; allowed: as many as thicknesses, 1/,
    );
  });

  it('mean-kinetic-temperature: -20 for 167 h and -5 for 1 h (recomputed), with its caution', () => {
    const found = called('mean-kinetic-temperature', { temperatures: '-20 -5 °C', durations: '167 1 h' });
    expect(off(found.temperature!.value, -19.697399)).toBeLessThan(1e-4);
    expect(heatRelations.find(({ name }) => name === 'mean-kinetic-temperature')!.caution).toMatch(/frozen/);
  });
});

describe('box-warming', () => {
  it('gives the time by finite volumes and as one lump, each under its name, with what was counted', () => {
    const found = called('box-warming', box);
    expect(off(found.ice!.value, 6 * 900 * Math.PI * 0.05 ** 2)).toBeLessThan(1e-9);
    expect(Number(found.edge!.value)).toBeLessThan(Number(found.lumped!.value));
    expect(Number(found.core!.value)).toBeGreaterThan(Number(found.edge!.value));
    // seen when it was made; no outside source for a whole box
    expect(off(found.core!.value, 14.9)).toBeLessThan(0.5);
  });

  it('takes a weighed mass and a measured conductivity instead', () => {
    const weighed = called('box-warming', { ...box, mass: '42.41150082 kg' });
    expect(off(weighed.core!.value, Number(called('box-warming', box).core!.value))).toBeLessThan(1e-6);
    const poor = called('box-warming', { ...box, conductivity: '0.05 W/m/K' });
    expect(Number(poor.core!.value)).toBeLessThan(Number(weighed.core!.value));
    const open = called('box-warming', { ...box, snow: '0 m', insulation: '0 m' });
    expect(off(open.core!.value, 1.2)).toBeLessThan(0.2);
    expect(called('box-warming', { ...box, area: '3 m2' }).area!.value).toBe(3);
  });

  it('carries the errors of conductivity and air through, and says never where it never does', () => {
    const { core } = called('box-warming', {
      ...box,
      conductivity: '0.037 ± 0.003 W/m/K',
      ambient: '5 ± 2 °C',
    });
    expect(core!.parts.map(({ from }) => from).sort()).toEqual([
      'ambient',
      'conductivity',
      'the relation itself',
    ]);
    expect(Number(core!.sd)).toBeGreaterThan(0.5);
    expect(Number(core!.sd)).toBeLessThan(3);
    expect(called('box-warming', { ...box, ambient: '-20 °C' }).core!.value).toBeNull();
  });

  it('has an uncertainty of its own: how far five published conductivities of snow spread it', () => {
    const variants = ['Calonne 2019', 'Calonne 2011', 'Yen 1981 (snow)', 'Jordan 1991', 'Van Dusen 1929'];
    const times = variants.map((variant) => Number(called('box-warming', { ...box, variant }).core!.value));
    const { core, lumped } = called('box-warming', box);
    const mean = times.reduce((a, b) => a + b) / 5;
    const sd = Math.sqrt(times.reduce((sum, time) => sum + (time - mean) ** 2, 0) / 4);
    expect(off(core!.sd, sd)).toBeLessThan(1e-9);
    expect(lumped!.sd).toBeNull();
  });

  it('cautions: computed, a silent logger proves nothing, people decide', () => {
    const { caution } = heatRelations.find(({ name }) => name === 'box-warming')!;
    expect(caution).toMatch(/Computed, not measured/);
    expect(caution).toMatch(/silence of a logger is no sign of cold/);
    expect(caution).not.toMatch(/safe/i);
  });

  it('box-improvement: hours that 5 cm of snow and 2 cm of foam buy', () => {
    const found = called('box-improvement', box);
    expect(Number(found.snowBuys!.value)).toBeGreaterThan(1);
    expect(off(found.wallBuys!.value, Number(found.withWall!.value) - Number(found.now!.value))).toBeLessThan(
      1e-9,
    );
    expect(off(found.now!.value, Number(called('box-warming', box).core!.value))).toBeLessThan(1e-9);
  });

  it('refuses a box without length, a temperature above melting, a unit of another dimension', () => {
    const { length: _, ...without } = box;
    expect(() => called('box-warming', without)).toThrow(/length of the pieces/);
    expect(() => called('box-warming', { ...box, start: '5 °C' })).toThrow(/-80 to 0/);
    expect(() => called('box-warming', { ...box, snow: '5 kg' })).toThrow(/snow/);
  });
});
