import { describe, expect, it } from 'vitest';
import { fitStraightLine } from './straight-line.ts';

describe('fitStraightLine', () => {
  // JCGM 100:2008, H.3: calibration of a thermometer, table H.6 and eqs. (H.14), (H.15); more digits recomputed
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const line = fitStraightLine(t, b, { origin: 20 });
  it('gives the printed intercept, slope, deviations and correlation of GUM H.3', () => {
    expect(line.intercept).toBeCloseTo(-0.1712038, 7);
    expect(line.sd[0]).toBeCloseTo(0.0028776, 7);
    expect(line.slope).toBeCloseTo(0.002182698, 9);
    expect(line.sd[1]).toBeCloseTo(0.000667939, 9);
    expect(line.correlation).toBeCloseTo(-0.93043, 5);
    expect(line.scatter).toBeCloseTo(0.003498, 6);
    expect(line.chiSquare).toBeCloseTo(1.10096583109e-4, 15);
  });
  it('predicts the correction at 30 degrees with the correlation of both coefficients', () => {
    expect(line.at(30).value).toBeCloseTo(-0.149377, 6);
    expect(line.at(30).sd).toBeCloseTo(0.004139, 6);
  });
  it('the line and its error are the same whatever the origin', () => {
    const other = fitStraightLine(t, b, { origin: -273.15 });
    expect(other.at(24.3).value).toBeCloseTo(line.at(24.3).value, 12);
    expect(other.at(24.3).sd).toBeCloseTo(line.at(24.3).sd, 12);
  });
  it('refuses x that are all alike, and lists of unlike length', () => {
    expect(() => fitStraightLine([3, 3, 3], [1, 2, 4])).toThrow(/follows from the others/);
    expect(() => fitStraightLine([1, 2, 3], [1, 2])).toThrow(/3 x, 2 y/);
  });
});
