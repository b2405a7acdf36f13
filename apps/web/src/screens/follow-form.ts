import { useDeferredValue, useMemo, useRef } from 'react';
import type { PlaceProps } from './place.ts';

/**
 * Book and hole for what stands beside a form. A hand that types, or waits for its tick, is served first; lists and
 * drawings follow in the frames after it, and are not drawn with depths that are about to be others.
 */
export function useFollowing({ book, hole }: PlaceProps): PlaceProps {
  const now = useMemo(() => ({ book, hole }), [book, hole]);
  const settled = useRef(now);
  if (!isAboutToMove(settled.current, now)) settled.current = now;
  return useDeferredValue(settled.current);
}

/** The hole is the same, its depths are still those of before, and others are being solved. */
function isAboutToMove(before: PlaceProps, { book, hole }: PlaceProps): boolean {
  const own = before.book.depths[hole.id];
  return before.hole.id === hole.id && book.solving && own !== undefined && own === book.depths[hole.id];
}
