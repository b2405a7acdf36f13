import { type RefObject, useEffect, useRef } from 'react';

interface WheelWork {
  /** Moves the window by CSS pixels; false at the end of the way, where the page may scroll on. */
  readonly pan: (px: number) => boolean;
  /** Comes closer by a factor around a height in CSS pixels. */
  readonly zoom: (factor: number, y: number) => void;
}

/** Wheel pans, wheel with Ctrl zooms. React's own wheel handler can't keep the page from scrolling along. */
export function useWheel(element: RefObject<HTMLElement | null>, wanted: boolean, work: WheelWork): void {
  const latest = useRef(work);
  latest.current = work;
  useEffect(() => {
    const turned = element.current;
    if (turned === null || !wanted) return;
    const turn = (event: WheelEvent): void => {
      const px = event.deltaY * (event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1);
      if (event.ctrlKey) {
        latest.current.zoom(Math.exp(-px / 300), event.clientY - turned.getBoundingClientRect().top);
        event.preventDefault();
      } else if (latest.current.pan(px)) event.preventDefault();
    };
    turned.addEventListener('wheel', turn, { passive: false });
    return () => turned.removeEventListener('wheel', turn);
  }, [element, wanted]);
}
