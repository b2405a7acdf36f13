import type { Shape } from '../shape.ts';
import type { Frame } from './frame.ts';
import type { ColumnPiece } from './input.ts';
import { lots } from './rough.ts';

/** More dots than this in one piece can't be told apart. */
const mostDots = 700;

/**
 * Air in the ice, as an ornament that tells firn from bubbly ice: close fine grain above the solver's firn
 * limit, sparser bubbles below it that shrink with depth. Nothing is read off it. A point keeps its place in
 * the piece at every scale; coming nearer adds points.
 */
export function bubbles(frame: Frame, piece: ColumnPiece, clear: number): readonly Shape[] {
  const [top, bottom] = [frame.y(piece.top.value), frame.y(piece.bottom.value)];
  const [left, right] = frame.core;
  const below = (piece.top.value + piece.bottom.value) / 2 - frame.input.firnTo;
  const firn = below < 0;
  const left01 = firn ? 1 : Math.exp(-below / 900);
  const perMm2 = firn ? 0.15 : 0.07 * left01;
  const high = bottom - top - 2 * clear - 0.8;
  if (high < 1.5) return [];
  const count = Math.min(mostDots, Math.round((right - left) * high * perMm2));
  const lot = lots(`${piece.id}/air`);
  const dots: (readonly [number, number, number])[] = [];
  const glints: (readonly [number, number, number])[] = [];
  for (let at = 0; at < count; at += 1) {
    const [across, down, size] = [lot(), lot(), lot() ** 3];
    const r = firn ? 0.14 + 0.2 * size : (0.16 + 0.42 * size) * (0.5 + 0.5 * left01);
    // A cylinder seen from the side: equal volumes crowd towards its middle, none stick out of its flanks.
    const x = (left + right) / 2 + ((right - left) / 2 - 0.7) * Math.sin((across - 0.5) * Math.PI * 0.96);
    const y = top + clear + 0.4 + down * high;
    if (y < frame.head - 1 || y > frame.height + 1) continue;
    dots.push([x, y, r]);
    if (r > 0.24) glints.push([x - r * 0.25, y - r * 0.25, r * 0.45]);
  }
  return [
    ...(dots.length > 0 ? [{ is: 'dots', dots, fill: 'bubble' } as const] : []),
    ...(glints.length > 0 ? [{ is: 'dots', dots: glints, fill: 'ice-lit' } as const] : []),
  ];
}
