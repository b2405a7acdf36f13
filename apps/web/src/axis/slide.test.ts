import type { ColumnInput } from '@firnbook/drawing';
import { describe, expect, it } from 'vitest';
import { moved } from './slide.ts';

const at = (top: number, hole = 'hole-b'): ColumnInput => ({
  hole,
  letter: 'B',
  zero: null,
  firnTo: 60,
  pieces: [
    {
      id: 'a',
      name: 'B-P001.1',
      number: 1,
      run: 'run-1',
      top: { value: top, sd: 0.01, min: top, max: top },
      bottom: { value: top + 0.4, sd: 0.01, min: top, max: top },
      topBreak: 'fits',
    },
  ],
  runs: [],
  marks: [],
  soundings: [],
  features: [],
});

describe('moved', () => {
  it('notices a piece that stands elsewhere, and nothing below half a millimetre', () => {
    expect(moved(at(1), at(1.01))).toBe(true);
    expect(moved(at(1), at(1.0002))).toBe(false);
  });

  it('takes another hole as another picture, not as motion', () => {
    expect(moved(at(1), at(2, 'hole-c'))).toBe(false);
  });
});
