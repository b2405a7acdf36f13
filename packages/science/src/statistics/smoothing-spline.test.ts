import { describe, expect, it } from 'vitest';
import { naturalSpline, smoothingSpline } from './smoothing-spline.ts';
import { fitStraightLine } from './straight-line.ts';

const x = [0, 0.8, 1.5, 2.9, 4.1, 5, 6.2, 7.7, 8.3, 9.6];
const y = [2.1, 2.9, 2.4, 3.8, 3.1, 4.4, 4, 5.3, 4.6, 5.9];
const sd = [0.3, 0.2, 0.4, 0.25, 0.3, 0.5, 0.2, 0.35, 0.3, 0.45];
const at = [0.4, 4.5, 9];

describe('naturalSpline', () => {
  // D. M. Young & R. T. Gregory 1972, 6.8, as printed in the GNU Scientific Library, interpolation/test.c: 1/(1 + x^2)
  it('of 1/(1 + x^2) has the printed values and slopes', () => {
    const curve = naturalSpline(
      [0, 0.2, 0.4, 0.6, 0.8, 1],
      [1, 0.961538461538461, 0.862068965517241, 0.735294117647059, 0.609756097560976, 0.5],
    );
    for (const [there, value, slope] of [
      [0.02, 0.997583282975581, -0.122279726798445],
      [0.32, 0.907957312698524, -0.536189418905076],
      [0.5, 0.799846963843167, -0.638121834629033],
      [0.98, 0.510588599432241, -0.529820891131095],
    ]) {
      expect(curve.at(there)).toBeCloseTo(value, 13);
      expect(curve.slopeAt(there)).toBeCloseTo(slope, 12);
    }
  });
  it('is that of the reference library (SciPy 1.17, CubicSpline, natural)', () => {
    const curve = naturalSpline(x, y);
    [2.6802348807057004, 3.638636649346361, 4.871963303454608].forEach((value, i) => {
      expect(curve.at(at[i])).toBeCloseTo(value, 13);
    });
    expect(curve.slopeAt(4.5)).toBeCloseTo(1.7884888436571158, 12);
  });
});

describe('smoothingSpline', () => {
  // SciPy 1.17, make_smoothing_spline with weights 1/sd^2; shares from its results for unit data, column by column
  it.each([
    [
      0.7,
      [2.529683599475397, 3.5214892042418358, 5.249859690951893],
      7.254455747553605,
      [0.2836619147897054, 0.25734603007524337, 0.4330921458136893],
    ],
    [
      25,
      [2.542329065472067, 3.685797756308003, 5.314847355326331],
      3.887976396033544,
      [0.2159116821213565, 0.17033581956542096, 0.33625023239749663],
    ],
  ])(
    'of penalty %d: values, degrees and errors are those of the reference library',
    (penalty, values, degrees, errors) => {
      const curve = smoothingSpline(x, y, { sd, penalty });
      values.forEach((value, i) => {
        expect(curve.at(at[i])).toBeCloseTo(value, 12);
      });
      expect(curve.degrees).toBeCloseTo(degrees, 11);
      [0, 4, 9].forEach((k, i) => {
        expect(curve.sd[k]).toBeCloseTo(errors[i], 12);
      });
    },
  );
  it('finds the penalty of generalised cross-validation (SciPy 1.17, make_smoothing_spline without one)', () => {
    const u = Array.from({ length: 40 }, (_, i) => i + 0.3 * Math.sin(i * 7));
    const wave = u.map((value, i) => Math.sin(value / 5) + 0.2 * Math.sin(i * i * 1.7));
    const curve = smoothingSpline(u, wave);
    [0.6643551398375559, -0.3982058184372632, -0.23487532614833556].forEach((value, i) => {
      expect(curve.at([3.3, 17.9, 30.2][i])).toBeCloseTo(value, 7);
    });
  });
  it('where a straight line is least by cross-validation, it is given', () => {
    expect(smoothingSpline(x, y).degrees).toBeCloseTo(2, 4);
  });
  it('a high price of bending gives the straight line by least squares, of two parameters', () => {
    const curve = smoothingSpline(x, y, { sd, penalty: 1e9 });
    const line = fitStraightLine(x, y, { sd });
    expect(curve.at(3.3)).toBeCloseTo(line.at(3.3).value, 5);
    expect(curve.sd[3]).toBeCloseTo(line.at(2.9).sd, 5);
    expect(curve.degrees).toBeCloseTo(2, 5);
  });
  it('refuses fewer than 4 data, and a negative price', () => {
    expect(() => smoothingSpline([1, 2, 3], [1, 3, 2])).toThrow(/4 or more/);
    expect(() => smoothingSpline(x, y, { penalty: -1 })).toThrow(/penalty is -1/);
  });
});
