import { QuantityError } from '@firnbook/science/quantity-error';
import { describe, expect, it } from 'vitest';
import { readDensityFile } from './density-file.ts';
import { withDepths } from './solved-depths-file.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
const read = (text: string) => readDensityFile({ name: 'p.csv', bytes: bytes(text) });

// invented readings
const full = [
  'run;piece;Mass (kg);tare_g;length_cm;length_2_cm;Diameter [mm];diameter_across_mm;diameter_2_mm;sawn_ends;sawn_off_mm;missing_percent;wedge_depth_mm;wedge_length_mm;wedge_kind;cutter_set;temperature_C;top_m;bottom_m',
  '1;1;2,65;152;75,0;75,2;98,1;97,9;98,3;both;5;2,5;;;;A;-12,5;0,00;0,75',
  '1;2;;;31,0;;;;98,0;;;;10;40;side;A;;0,76;1,07',
].join('\n');

describe('table of weighed pieces', () => {
  it('reads every column in kilograms and metres, units from headers, comma or point', () => {
    const { pieces, names, isPlaced } = read(full);
    expect(names).toEqual([
      { run: '1', piece: '1' },
      { run: '1', piece: '2' },
    ]);
    expect(isPlaced).toBe(true);
    expect(pieces[0]).toEqual({
      id: '1-1',
      cutterSet: 'A',
      gross: 2.65,
      tare: 0.152,
      lengths: [0.75, 0.752],
      diameters: [[0.0981, 0.0979], 0.0983],
      sawnEnds: 2,
      sawnOff: 0.005,
      missingShare: 0.025,
      wedges: [],
      temperature: 260.65,
      top: 0,
      bottom: 0.75,
    });
  });

  it('takes an empty cell for a reading that was not taken, never for 0', () => {
    const [, piece] = read(full).pieces;
    expect(piece).toEqual({
      id: '1-2',
      cutterSet: 'A',
      lengths: [0.31],
      diameters: [0.098],
      sawnEnds: 0,
      wedges: [{ kind: 'side', depth: 0.01, length: 0.04 }],
      top: 0.76,
      bottom: 1.07,
    });
  });

  it.each([
    [
      'piece,mass,length_m,diameter_mm\n1,2,0.5,98\n',
      /line 1, column 2 \(mass\): the column "mass" says no unit\. Write mass_g or mass_kg/,
    ],
    ['piece,mass_t,length_m,diameter_mm\n1,2,0.5,98\n', /there is no column "mass_g"/],
    [
      'piece,mass_g,diameter_mm\n1,2,98\n',
      /there is no column "length_cm"\. The header has: piece, mass_g, diameter_mm/,
    ],
    ['piece,mass_g,length_m\n1,2,1\n', /there is no column "diameter_mm"/],
    ['piece,mass_g,length_m,diameter_mm\n1,2x,0.5,98\n', /line 2, column 2 \(mass_g\): "2x" is not a number/],
    [
      'piece,mass_g,length_m,diameter_mm\n1,2,0.5,98\n1,2,0.5,98\n',
      /line 3, column 1 \(piece\): piece 1 is there already, in line 2/,
    ],
    [
      'piece,mass_g,length_m,diameter_mm,sawn_ends\n1,2,0.5,98,three\n',
      /line 2, column 5 \(sawn_ends\): "three" does not say/,
    ],
    [
      'piece,mass_g,length_m,diameter_mm,top_m,bottom_m\n1,2,0.5,98,1.5,1.0\n',
      /line 2, column 6 \(bottom_m\): the bottom \(1\.0\) is not below the top \(1\.5\)/,
    ],
    [
      'piece,mass_g,length_m,diameter_mm,temperature_C\n1,2,0.5,98,260\n',
      /line 2, column 5 \(temperature_C\): a temperature of 260/,
    ],
    [
      'piece,mass_g,length_m,diameter_mm,wedge_depth_mm,wedge_length_mm\n1,2,0.5,98,10,\n',
      /line 2, column 6 \(wedge_length_mm\)/,
    ],
    [
      'piece,mass_g,length_m,diameter_mm,wedge_depth_mm\n1,2,0.5,98,10\n',
      /there is a depth of a wedge and no length/,
    ],
    ['piece,mass_g,length_m,diameter_mm\n', /there are no pieces, only a header/],
  ])('refuses %j with file, line, column and what to do', (text, words) => {
    expect(() => read(text)).toThrow(words);
    expect(() => read(text)).toThrow(/^p\.csv/);
  });

  it('tells where in the file a reading stands that the computation refuses', () => {
    const { placed } = read(full);
    const error = placed(new QuantityError('piece 1-1', 'length is 75 m', '0.005 to 6 m'));
    expect(error.message).toMatch(
      /^p\.csv, line 2, column 5 \(length_cm\): piece 1-1: length is 75 m\. Allowed: 0\.005 to 6 m/,
    );
    expect(placed(new QuantityError('piece 1-2', 'mass is 900 kg', 'x')).message).toMatch(
      /line 3, column 3 \(Mass \(kg\)\)/,
    );
  });

  it('takes depths from a table of solved depths by run and piece, whatever zeros are in front', () => {
    const solved = withDepths(read(full), {
      name: 'd.csv',
      bytes: bytes('run,piece,top_m,bottom_m\n01,1,0.011,0.762\n'),
    });
    expect(solved.pieces[0]).toMatchObject({ top: 0.011, bottom: 0.762 });
    expect(solved.pieces[1].top).toBeUndefined();
    expect(solved.isPlaced).toBe(false);
    expect(solved.remarks).toEqual(['Not in d.csv: 1-2.']);
  });
});
