import { useDeferredValue, useMemo } from 'react';
import type { PlaceProps } from './place.ts';

/**
 * Book and hole for what stands beside a form. A hand that types, or waits for its tick, is served first; lists and
 * drawings follow in the frames after it.
 */
export function useFollowing({ book, hole }: PlaceProps): PlaceProps {
  return useDeferredValue(useMemo(() => ({ book, hole }), [book, hole]));
}
