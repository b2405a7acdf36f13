/** How fast each paired device may ask. */
export interface Pace {
  /** ms that this request of a device waits for its turn; null where it would wait too long, and is not let in. */
  wait(device: string): number | null;
}

/** Requests a second of one device that goes on and on. */
const perSecond = 120;
/** Requests at once: a first start fetches all screens, and a day's photographs go up in pieces. */
const burst = 240;
/** ms that a request waits at most: longer, and the device had better come again. */
const longestWait = 5_000;

/**
 * A device that runs wild is slowed down, and keeps no other one waiting. Each has a time at which its next request is
 * due, a 120th of a second after the one before; the first 240 that are early go through at once.
 */
export function openPace(now: () => number = Date.now): Pace {
  const due = new Map<string, number>();
  const apart = 1000 / perSecond;
  return {
    wait(device) {
      const at = now();
      const next = Math.max(due.get(device) ?? 0, at);
      const wait = Math.max(0, next - at - burst * apart);
      if (wait > longestWait) return null;
      due.set(device, next + apart);
      return Math.round(wait);
    },
  };
}
