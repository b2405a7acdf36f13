import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkIntervalFile, type IntervalColumns } from './interval-file.ts';

const check = (text: string, columns?: IntervalColumns) =>
  checkIntervalFile({ name: 't.csv', bytes: new TextEncoder().encode(text) }, columns);

const found = (text: string, columns?: IntervalColumns) => {
  const { closure, lines } = check(text, columns);
  return closure.misfits.map(({ what, row, size }) => `${what} line ${lines[row]} ${size?.toFixed(3)}`);
};

describe('checkIntervalFile', () => {
  it.each([
    ['top_m,bottom_m', { top: 'top_m', bottom: 'bottom_m' }],
    ['Depth top [m],Depth bot [m]', { top: 'Depth top [m]', bottom: 'Depth bot [m]' }],
    ['from,to', { top: 'from', bottom: 'to' }],
    ['depthFrom,depthTo', { top: 'depthFrom', bottom: 'depthTo' }],
    ['bag,ztop', { bag: 'bag', top: 'ztop' }],
    ['Length (cm),Depth (m)', { length: 'Length (cm)', depth: 'Depth (m)' }],
    ['sample,thickness_mm,top_m', { length: 'thickness_mm', top: 'top_m' }],
  ])('guesses the columns of "%s"', (header, used) => {
    const width = header.split(',').length;
    const cells = ['1', '2', '3'].slice(0, width).join(',');
    expect(check(`${header}\n${cells}\n`).used).toEqual(used);
  });

  it('takes columns by name or number where they are given, and no other depths then', () => {
    expect(check('a,b,depth\n0.0,0.5,9\n0.5,1.0,9\n', { top: 'a', bottom: '2' }).used).toEqual({
      top: 'a',
      bottom: 'b',
    });
  });

  it('takes units from the header: a length in mm against depths in m', () => {
    expect(found('top_m,bottom_m,length_mm\n0.000,0.550,550\n0.550,1.100,530\n')).toEqual([
      'length line 3 -0.020',
    ]);
  });

  it('reads "1.1" as 1.10 where a program dropped the closing zeros', () => {
    expect(found('bag,ztop\n1,0\n2,0.55\n3,1.1\n4,1.65\n5,2.25\n6,2.75\n')).toEqual(['bag line 6 0.050']);
  });

  it('names the line in the file, past comments', () => {
    expect(found('# camp table\ntop,bottom\n0.00,0.50\n\n0.60,1.00\n')).toEqual(['gap line 5 0.100']);
  });

  it.each([
    ['a,b\n1,2\n', 'no columns of depths were found'],
    ['top,density\n1,2\n', 'only one depth per row was found (top)'],
    ['top,bottom\n0.00,x\n', 't.csv, line 2, column 2 (bottom): "x" is not a number'],
    ['bag,top\nabc,0\n', '"abc" is no bag number'],
    ['top,bottom\n,\n', 'no row holds a figure'],
  ])('refuses %j', (text, words) => {
    expect(() => check(text)).toThrow(words);
  });

  it('says which option names no column', () => {
    expect(() => check('top,bottom\n0,1\n', { top: 'zz' })).toThrow('there is no column "zz" (--top)');
  });
});

const shared = (name: string) => {
  try {
    return { name, bytes: readFileSync(new URL(`../../../../shared/data/${name}`, import.meta.url)) };
  } catch {
    return null;
  }
};

// EPICA: Jouzel et al. 2007, doi:10.1126/science.1141038; B31, B32: presumably Graf et al. 2002, repository of
// Dallmayr et al. (GRL 2025)
const published = [
  ['edc_bags/edc3deuttemp2007_trimmed.txt', 5800, 3189.45],
  ['edc_bags/EDC_bag_EDC3beta_AICC2012_acc.csv', 5819, 3199.9],
  ['b31_b32/B31_Isotope_Age.txt', 1533, 114.95],
  ['b31_b32/B32_Isotope_Age.txt', 1831, 148.803],
] as const;
const b31 = shared('b31_b32/B31_Isotope_Age.txt');

describe('checkIntervalFile on published files', () => {
  for (const [name, rows, bottom] of published) {
    const file = shared(name);
    it.skipIf(file === null)(`${name}: nothing is reported that is not there`, () => {
      expect(checkIntervalFile(file!).closure).toMatchObject({ misfits: [], rows, bottom });
    });
  }

  it.skipIf(b31 === null)(
    'b31_b32: B31 with three yearly layers taken out reports exactly their gaps',
    () => {
      const lines = new TextDecoder().decode(b31!.bytes).split('\r\n');
      const kept = lines.filter((_, i) => i !== 3 && i !== 800 && i !== 1500);
      const { closure, lines: at } = check(kept.join('\n'));
      const thick = (line: string) => Number(line.split('\t')[4]) - Number(line.split('\t')[3]);
      expect(closure.misfits.map(({ what, row, size }) => [what, at[row], size?.toFixed(3)])).toEqual([
        ['gap', 4, thick(lines[3]).toFixed(3)],
        ['gap', 800, thick(lines[800]).toFixed(3)],
        ['gap', 1499, thick(lines[1500]).toFixed(3)],
      ]);
    },
  );
});
