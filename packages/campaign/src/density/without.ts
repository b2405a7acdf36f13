import { defaultDensityAssumptions } from '@firnbook/science/density';
import type { DensityView } from './shape.ts';

/** A hole of which nothing could be computed, and why. */
export const withoutDensity = (hole: string, trouble: string): DensityView => ({
  hole,
  pieces: {},
  profile: [],
  water: [],
  weighed: 0,
  melt: null,
  model: [],
  fit: null,
  assumptions: defaultDensityAssumptions,
  flagged: [],
  trouble,
});
