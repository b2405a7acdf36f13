import { describe, expect, it } from 'vitest';
import { readHeading } from './heading.ts';

describe('readHeading', () => {
  it.each([
    ['length_cm', 'length', 'cm', 0.01],
    ['Depth top [m]', 'depth top', 'm', 1],
    ['thickness (mm)', 'thickness', 'mm', 0.001],
    ['Length, cm', 'length', 'cm', 0.01],
    ['depthTop', 'depth top', null, null],
    ['hole_depth_m', 'hole depth', 'm', 1],
    ['ztop', 'ztop', null, null],
    ['Density [kg/m**3]', 'density', 'kg/m**3', null],
    ['m', 'm', null, null],
    ['EDC3b\u00e9ta', 'edc3beta', null, null],
  ])('reads %j', (text, words, unit, metres) => {
    expect(readHeading(text)).toEqual({ text, words, unit, metres });
  });
});
