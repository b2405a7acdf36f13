/** What really happened in the invented hole: for tests that judge the solved depths, never for a screen. */
import { drill, type Trip } from './ice.ts';
import { CORRECTED, SLIP } from './script.ts';

export interface DemoTruth {
  readonly trips: readonly Trip[];
  /** The piece whose length was typed wrong, and by how much (metres). */
  readonly slip: { readonly run: number; readonly piece: number; readonly size: number };
  /** The run whose end was corrected by the crew. */
  readonly corrected: { readonly run: number };
}

export function demoTruth(seed: number): DemoTruth {
  return { trips: drill(seed), slip: SLIP, corrected: CORRECTED };
}
