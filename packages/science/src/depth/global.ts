/** Columns of the globals that every hole has; what a hole has besides begins at `extra`. */
export const Global = {
  cable: 0,
  tape: 1,
  fit: 2,
  loss: 3,
  fill: 4,
  stub: 5,
  unsure: 6,
  extra: 7,
} as const;
