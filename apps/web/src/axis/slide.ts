import { blend, type ColumnInput } from '@firnbook/drawing';
import { useEffect, useRef, useState } from 'react';

/** Long enough to see where the ice went, short enough not to wait for. */
const slideMs = 420;

/**
 * The column on its way to a new solution: after a correction the pieces slide to their new places. Jumps at once
 * where motion is not wanted or nothing moved.
 */
export function useSlide(target: ColumnInput, wanted: boolean): ColumnInput {
  const [shown, setShown] = useState(target);
  const now = useRef(target);
  useEffect(() => {
    const start = now.current;
    const show = (input: ColumnInput): void => {
      now.current = input;
      setShown(input);
    };
    if (!wanted) {
      now.current = target;
      return;
    }
    const still = matchMedia('(prefers-reduced-motion: reduce)').matches || !moved(start, target);
    if (still) {
      show(target);
      return;
    }
    let begun: number | null = null;
    let frame = requestAnimationFrame(function step(time) {
      begun ??= time;
      const share = Math.min(1, (time - begun) / slideMs);
      show(blend(start, target, 1 - (1 - share) ** 3));
      if (share < 1) frame = requestAnimationFrame(step);
    });
    return () => cancelAnimationFrame(frame);
  }, [target, wanted]);
  // A new solution may have pieces that the old one lacks; until the first step of the slide they stand in place.
  return wanted && shown.hole === target.hole ? shown : target;
}

/** Whether a piece that both have stands elsewhere by half a millimetre of ice or more. */
export function moved(old: ColumnInput, now: ColumnInput): boolean {
  if (old.hole !== now.hole) return false;
  const was = new Map(old.pieces.map((piece) => [piece.id, piece]));
  return now.pieces.some((piece) => {
    const before = was.get(piece.id);
    return (
      before !== undefined &&
      Math.max(
        Math.abs(before.top.value - piece.top.value),
        Math.abs(before.bottom.value - piece.bottom.value),
      ) >= 0.0005
    );
  });
}
