/** Two figures for one depth agree when some depth rounds to both: touching ends of the ranges don't count. */
export const sameDepth = (difference: number, halves: number): boolean =>
  Math.abs(difference) < halves * (1 - 1e-6);

/** A sum agrees with a figure when rounding of all that went in explains the difference. */
export const sumAgrees = (difference: number, halves: number): boolean =>
  Math.abs(difference) <= halves * (1 + 1e-6) + 1e-9;
