import { type RefObject, useEffect, useState } from 'react';

/** CSS pixels in a millimetre. */
export const pxPerMm = 96 / 25.4;

export interface BoxSize {
  readonly width: number;
  readonly height: number;
}

/** Size of an element in CSS pixels, followed as it changes; 0 by 0 until it is known. */
export function useBoxSize(element: RefObject<HTMLElement | null>): BoxSize {
  const [size, setSize] = useState<BoxSize>({ width: 0, height: 0 });
  useEffect(() => {
    const watched = element.current;
    if (watched === null) return;
    const watch = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const { width, height } = entry.contentRect;
      setSize((was) => (was.width === width && was.height === height ? was : { width, height }));
    });
    watch.observe(watched);
    return () => watch.disconnect();
  }, [element]);
  return size;
}
