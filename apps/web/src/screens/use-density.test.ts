import type { ThingView } from '@firnbook/campaign';
import type { DensitySlip } from '@firnbook/science/density';
import { describe, expect, it } from 'vitest';
import { slipField } from './use-density.ts';

const piece = (fields: readonly string[]): ThingView =>
  ({
    readings: Object.fromEntries(fields.map((field) => [field, { value: 0.098 }])),
  }) as unknown as ThingView;
const slip = (reading: DensitySlip['reading'], index: number | null): DensitySlip => ({
  reading,
  index,
  slip: '1 mm',
  instead: 0.098,
  density: 640,
  probability: 0.9,
});

describe('slipField', () => {
  it('counts the diameters that were read, so that a missing one shifts nobody’s slip', () => {
    expect(slipField(piece(['diameterTop', 'diameterBottom']), slip('diameter', 1))).toBe('diameterBottom');
    expect(slipField(piece(['diameterMiddle']), slip('diameter', 0))).toBe('diameterMiddle');
  });

  it('is the reading itself for what is read once, and none for a slip in several', () => {
    expect(slipField(piece([]), slip('mass', null))).toBe('mass');
    expect(slipField(piece([]), slip('diameter', null))).toBeUndefined();
  });
});
