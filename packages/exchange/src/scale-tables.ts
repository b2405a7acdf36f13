import {
  type ConversionRow,
  conversionTable,
  type DepthDifference,
  type ScaleOfHole,
  scaleName,
  type VerticalPiece,
} from '@firnbook/science/depth-scales';
import { type Cell, fixed, writeTable } from './write-table.ts';

/** Run and piece as people wrote them, by the id of the piece. */
export type PieceNames = ReadonlyMap<string, { readonly run: string; readonly piece: string }>;

/** Tenths of a millimetre: finer than any reading, so that nothing is lost by writing it down. */
const decimals = 4;

const metres = (value: number | null | undefined): Cell =>
  value === null || value === undefined ? null : fixed(value, decimals);

/** "solved v2" as the head of a column: "solved_v2". */
const column = (scale: ScaleOfHole): string => scaleName(scale.scale).replace(/[^\p{L}\p{N}.-]+/gu, '_');

/**
 * All scales of a hole side by side at the top and bottom of every piece, as CSV in metres. A cell is empty where a
 * scale does not reach. Scales that have one are followed by their standard deviation; the column `lost_above_m` holds
 * the ice missing above a top on the last of these.
 *
 * @param vertical vertical depths of the same pieces, where the hole's direction was measured
 */
export const writeScales = (
  scales: readonly ScaleOfHole[],
  names: PieceNames,
  vertical: readonly VerticalPiece[] = [],
): string => {
  const rows = conversionTable(scales);
  const below = new Map(vertical.map((piece) => [piece.id, piece]));
  const exact = scales.findLastIndex(({ sd }) => sd !== null);
  const header = [
    'hole',
    'run',
    'piece',
    'end',
    ...scales.flatMap((scale) => [
      `${column(scale)}_m`,
      ...(scale.sd === null ? [] : [`${column(scale)}_sd_m`]),
    ]),
    ...(exact < 0 ? [] : ['lost_above_m']),
    ...(vertical.length === 0 ? [] : ['vertical_m', 'vertical_sd_m']),
  ];
  return writeTable(
    header,
    rows.map((row, i) => {
      const name = names.get(row.piece);
      const vertically = below.get(row.piece)?.[row.end].vertical;
      return [
        scales[0]!.hole,
        name?.run ?? row.run,
        name?.piece ?? row.piece,
        row.end,
        ...scales.flatMap((scale, s) => [
          metres(row.depths[s]),
          ...(scale.sd === null ? [] : [metres(row.sds[s])]),
        ]),
        ...(exact < 0 ? [] : [lostAbove(rows, i, exact)]),
        ...(vertical.length === 0 ? [] : [metres(vertically?.value), metres(vertically?.sd)]),
      ];
    }),
  );
};

const lostAbove = (rows: readonly ConversionRow[], i: number, scale: number): Cell => {
  const above = i === 0 ? 0 : rows[i - 1]!.depths[scale];
  const here = rows[i]!.depths[scale];
  return rows[i]!.end === 'top' && above != null && here != null ? metres(here - above) : null;
};

/**
 * What moved between two states of a hole's depths, as CSV: one row for each piece that is in both.
 *
 * @param because why each piece moved, in words, in the order of `difference.moved`
 */
export const writeMovements = (
  difference: DepthDifference,
  names: PieceNames,
  because: readonly string[],
): string =>
  writeTable(
    ['run', 'piece', 'top_moved_m', 'bottom_moved_m', 'because'],
    difference.moved.map(({ piece, top, bottom }, i) => [
      names.get(piece)?.run ?? '',
      names.get(piece)?.piece ?? piece,
      metres(top),
      metres(bottom),
      because[i] ?? '',
    ]),
  );
