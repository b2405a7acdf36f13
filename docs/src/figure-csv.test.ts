import { describe, expect, it } from 'vitest';
import { figureCsv } from './figure-csv.ts';

describe('figureCsv', () => {
  it('has a line for every point of lines, readings and bands, quoted where RFC 4180 asks for it', () => {
    const csv = figureCsv({
      title: 'Age by depth',
      x: { label: 'age', unit: 'a', from: 0, to: 9 },
      y: { label: 'depth', unit: 'm', from: 8, to: 0 },
      curves: [{ label: 'Nye, "thin"', at: [[0.1 + 0.2, 2]] }],
      points: [{ label: 'dated', at: [[3, 4]] }],
      bands: [{ label: '2 sd', at: [[5, 6, 7]] }],
    });
    expect(csv.split('\r\n')).toEqual([
      'kind,name,age [a],depth [m],upper depth [m]',
      'line,"Nye, ""thin""",0.3,2,',
      'reading,dated,3,4,',
      'band,2 sd,5,6,7',
      '',
    ]);
  });
});
