import type { DepthDifference, ScaleOfHole, VerticalPiece } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import { writeMovements, writeScales } from './scale-tables.ts';

const places = ['a', 'b'].flatMap((piece) => [
  { piece, run: 'r1', end: 'top' } as const,
  { piece, run: 'r1', end: 'bottom' } as const,
]);
const rest = { hole: 'CER-B', places, leftOut: [], filled: [], endsAt: null };
const scales: readonly ScaleOfHole[] = [
  { ...rest, scale: { name: 'laboratory', of: 'ions, first' }, at: [null, 0.1, 0.2, 0.7], sd: null },
  {
    ...rest,
    scale: { name: 'solved', version: 'v2' },
    at: [0.01, 0.5, 0.53, 1],
    sd: [0.01, 0.02, 0.02, 0.03],
  },
];
const names = new Map([
  ['a', { run: '1', piece: '1' }],
  ['b', { run: '1', piece: '2' }],
]);

describe('writeScales', () => {
  it('has a column for every scale, its uncertainty beside it, and the ice missing above each top', () => {
    expect(writeScales(scales, names)).toBe(
      [
        'hole,run,piece,end,laboratory_ions_first_m,solved_v2_m,solved_v2_sd_m,lost_above_m',
        'CER-B,1,1,top,,0.0100,0.0100,0.0100',
        'CER-B,1,1,bottom,0.1000,0.5000,0.0200,',
        'CER-B,1,2,top,0.2000,0.5300,0.0200,0.0300',
        'CER-B,1,2,bottom,0.7000,1.0000,0.0300,',
        '',
      ].join('\n'),
    );
  });

  it('puts vertical depths beside where the direction of the hole was measured', () => {
    const at = (value: number) => ({
      along: value,
      vertical: { value, sd: 0.02 },
      north: null,
      east: null,
      isBelowStations: false,
    });
    const vertical: readonly VerticalPiece[] = [{ id: 'b', top: at(0.525), bottom: at(0.99) }];
    const [header, first, , third] = writeScales(scales.slice(0, 1), names, vertical).split('\n');
    expect(header).toBe('hole,run,piece,end,laboratory_ions_first_m,vertical_m,vertical_sd_m');
    expect(first).toBe('CER-B,1,1,top,,,');
    expect(third).toBe('CER-B,1,2,top,0.2000,0.5250,0.0200');
  });
});

describe('writeMovements', () => {
  it('has one row for every piece that is in both, with the reason in words', () => {
    const difference: DepthDifference = {
      changes: [],
      moved: [{ piece: 'b', top: 0, bottom: 0.012, causes: [] }],
      appeared: [],
      gone: [],
    };
    expect(writeMovements(difference, names, ['it was measured again, and "again"'])).toBe(
      'run,piece,top_moved_m,bottom_moved_m,because\n1,2,0.0000,0.0120,"it was measured again, and ""again"""\n',
    );
  });
});
