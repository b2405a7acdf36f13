import { describe, expect, it } from 'vitest';
import { isUnit, readHeader, unitIn } from './header.ts';

describe('readHeader', () => {
  it.each([
    ['Length (cm)', 'length', 'cm'],
    ['Depth top [m]', 'depth top', 'm'],
    ['depth_to_m', 'depth to', 'm'],
    ['mass [g]', 'mass', 'g'],
    ['T / °C', 't', '°C'],
    ['T/°C', 't', '°C'],
    ['Länge, mm', 'lange', 'mm'],
    ['depthFrom', 'depth from', null],
    ['Break (top)', 'break top', null],
    ['depth_min', 'depth min', null],
    ['density (kg m-3)', 'density', 'kg m-3'],
    ['from / to', 'from to', null],
    ['Depth ice/snow [m w.e.]', 'depth ice snow', 'm w.e.'],
    ['Run #', 'run #', null],
    ['d18O (permil)', 'd18o', 'permil'],
  ])('%s', (text, words, unit) => {
    expect(readHeader(text)).toMatchObject({ words, unit });
  });
});

describe('a line of units', () => {
  it.each(['m', '(cm)', '[kg m-3]', '-', '°C', '‰'])('%s is a unit', (text) => {
    expect(isUnit(text)).toBe(true);
  });
  it('a dash names none', () => {
    expect(unitIn('-')).toBeNull();
    expect(unitIn('[cm]')).toBe('cm');
  });
});
