import { describe, expect, it } from 'vitest';
import { readFirnLayers } from './firn-layers-file.ts';

const read = (text: string) => readFirnLayers({ name: 'd.csv', bytes: new TextEncoder().encode(text) });

describe('table of measured densities', () => {
  it('reads what firnbook density writes, and passes over rows without a density', () => {
    const { layers, remarks } = read(
      'run,piece,top_m,bottom_m,density_kg_m3,random_sd_kg_m3,shared_sd_kg_m3\n1,1,0,0.75,400,3,2\n1,2,0.8,1.2,,,\n',
    );
    expect(layers).toEqual([{ top: 0, bottom: 0.75, density: 400, sd: 3, sharedShare: 0.005 }]);
    expect(remarks).toEqual(['d.csv: 1 rows without depth or density were passed over.']);
  });

  it('says what error it takes where the table says none', () => {
    const { layers, remarks } = read('from_m;to_m;density\n0;1;400,5\n');
    expect(layers[0]).toMatchObject({ density: 400.5, sd: 15, sharedShare: 0 });
    expect(remarks[0]).toMatch(/15 kg\/m3 is taken/);
  });

  it.each([
    ['top,bottom,density\n1,0.5,400\n', /line 2, column 2 \(bottom\)/],
    [
      'top,bottom,density\n0,1,0.4\n',
      /line 2, column 3 \(density\): a density of 0\.4 .* Write it in kg\/m3/,
    ],
    ['top,bottom,density,sd\n0,1,400,0\n', /line 2, column 4 \(sd\)/],
    ['top,bottom,density\n0,1,\n', /no row has top, bottom and density/],
    ['top,density\n0,1\n', /there is no column "bottom_m"/],
  ])('refuses %j with file, line and column', (text, words) => {
    expect(() => read(text)).toThrow(words);
  });
});
