import type { Frame } from './frame.ts';
import { type ColumnPiece, isWhole } from './input.ts';
import { roughness } from './rough.ts';

export type Point = readonly [number, number];

/** Rough edges of a piece and of its neighbours, each lying on its depth on average. */
export interface Edges {
  readonly above: readonly Point[];
  readonly top: readonly Point[];
  readonly bottom: readonly Point[];
  readonly amplitude: number;
}

/** Where a piece fits the one above, both have the same edge. */
export function edgesOf(
  frame: Frame,
  above: ColumnPiece | undefined,
  piece: ColumnPiece,
  below: ColumnPiece | undefined,
): Edges {
  const { mmPerMetre } = frame.options;
  const rough = (one: ColumnPiece | undefined): number =>
    one === undefined
      ? Infinity
      : Math.min(1.1, 0.1 + 0.006 * mmPerMetre, 0.09 * (one.bottom.value - one.top.value) * mmPerMetre);
  const edge = (
    upper: ColumnPiece | undefined,
    lower: ColumnPiece | undefined,
    side: 'upper' | 'lower',
  ): readonly Point[] => {
    const own = side === 'upper' ? upper! : lower!;
    const depth = side === 'upper' ? own.bottom.value : own.top.value;
    const both = Math.min(rough(upper), rough(lower));
    const gap = upper && lower ? (lower.top.value - upper.bottom.value) * mmPerMetre : Infinity;
    // Edges closer than they are rough would run through each other, had they not the same shape.
    const alike = gap < 2.2 * both || (lower !== undefined && isWhole(lower.topBreak));
    const key = alike || side === 'lower' ? `${lower!.id}/top` : `${own.id}/bottom`;
    // A saw leaves a level face.
    const amplitude = lower?.topBreak === 'sawn' ? 0 : alike ? both : rough(own);
    return breakLine(frame, frame.y(depth), key, amplitude);
  };
  return {
    above: above === undefined ? [] : edge(above, piece, 'upper'),
    top: edge(above, piece, 'lower'),
    bottom: edge(piece, below, 'upper'),
    amplitude: rough(piece),
  };
}

function breakLine(frame: Frame, y: number, key: string, amplitude: number): readonly Point[] {
  const [left, right] = frame.core;
  if (amplitude < 0.05)
    return [
      [left, y],
      [right, y],
    ];
  const offsets = roughness(key, amplitude < 0.25 ? 12 : 26);
  return offsets.map((offset, at) => [
    left + ((right - left) * at) / (offsets.length - 1),
    y + offset * amplitude,
  ]);
}
