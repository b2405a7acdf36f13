import type { Metres } from '../units.ts';

/** Depths of one hole that count from the same zero in the same way. */
export type DepthScale =
  /** Counter on the cable. */
  | { readonly name: 'driller' }
  /** Lengths and gaps as logged, added up from the zero. */
  | { readonly name: 'logger' }
  /** Solved from all readings; each version is a scale of its own. */
  | { readonly name: 'solved'; readonly version: string }
  /** Nominal intervals of the bags. */
  | { readonly name: 'bag interval' }
  /** As a laboratory measured along its part of the core. */
  | { readonly name: 'laboratory'; readonly of: string }
  | { readonly name: 'imported'; readonly of: string };

/** Metres with a standard deviation. */
export interface DepthWithError {
  readonly value: Metres;
  readonly sd: Metres;
}

/** A depth is never a bare number: it says of which hole and on which scale. */
export interface ScaledDepth extends DepthWithError {
  readonly hole: string;
  readonly scale: DepthScale;
}

/** A scale in words, one of its own for each scale: "solved v2", "laboratory CF". */
export const scaleName = (scale: DepthScale): string => {
  switch (scale.name) {
    case 'solved':
      return `solved ${scale.version}`;
    case 'laboratory':
    case 'imported':
      return `${scale.name} ${scale.of}`;
    default:
      return scale.name;
  }
};

/** Depths, scales, versions or splices cannot be used as they are; the message says which and what to do. */
export class DepthScaleError extends Error {
  constructor(problem: string) {
    super(problem);
    this.name = 'DepthScaleError';
  }
}
