import { type PointerEvent, useRef } from 'react';

/** A pointer that moved less than this, in CSS pixels, has tapped. */
const still = 5;

interface GripWork {
  /** Pixels dragged since the drag began, downwards; called with 'begin' first. */
  readonly drag: ((moved: number | 'begin') => void) | null;
  readonly tap: (x: number, y: number, byMouse: boolean) => void;
}

interface Grip {
  readonly onPointerDown: (event: PointerEvent) => void;
  readonly onPointerMove: (event: PointerEvent) => void;
  readonly onPointerUp: (event: PointerEvent) => void;
  readonly onPointerCancel: () => void;
}

/** Tap and, for a mouse or pen, drag. A finger's drag is left to the page, which scrolls. */
export function useGrip({ drag, tap }: GripWork): Grip {
  const held = useRef<{ readonly y: number; dragging: boolean } | null>(null);
  return {
    onPointerDown: (event) => {
      if (event.button === 0) held.current = { y: event.clientY, dragging: false };
    },
    onPointerMove: (event) => {
      const grip = held.current;
      if (drag === null || grip === null || event.pointerType === 'touch' || (event.buttons & 1) === 0)
        return;
      const moved = event.clientY - grip.y;
      if (!grip.dragging) {
        if (Math.abs(moved) < still) return;
        grip.dragging = true;
        event.currentTarget.setPointerCapture(event.pointerId);
        drag('begin');
      }
      drag(moved);
    },
    onPointerUp: (event) => {
      const grip = held.current;
      held.current = null;
      if (grip === null || grip.dragging) return;
      const corner = event.currentTarget.getBoundingClientRect();
      tap(event.clientX - corner.left, event.clientY - corner.top, event.pointerType === 'mouse');
    },
    onPointerCancel: () => {
      held.current = null;
    },
  };
}
