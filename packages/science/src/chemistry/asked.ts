import { numberTaken } from '../relations/relation.ts';

/** A content in the units of a laboratory. What a blank that was taken off leaves may lie below zero. */
export const contentAsked = (symbol: string, what: string, unit = 'ug/kg') =>
  numberTaken(
    symbol,
    what,
    unit,
    [-1e9, 1e9],
    'all the mass there is; below zero after a blank was taken off',
  );

/** Errors that stand in the call: the only way to give a correlation between two of them. */
export const sdAsked = (symbol: string, of: string, unit: string) => ({
  ...numberTaken(
    symbol,
    `standard uncertainty of ${of}, to be given here only together with a correlation`,
    unit,
    [0, 1e9],
    'by definition',
  ),
  usual: 0,
});

export const correlationAsked = {
  ...numberTaken('r', 'correlation of both errors', '1', [-1, 1], 'by definition'),
  usual: 0,
};
