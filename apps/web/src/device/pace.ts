/** What decides when this device speaks with the camp computer next. */
export interface Situation {
  /** Exchanges that failed in a row. */
  readonly failures: number;
  /** Entries that the camp computer is not known to hold. */
  readonly unsent: number;
  /** Somebody looks at the page. */
  readonly visible: boolean;
}

/** A lit screen costs far more than one small request; two tablets that contradict each other should see it soon. */
const idle = 10_000;
const firstRetry = 1_000;
const longestWithUnsent = 8_000;
const longest = 60_000;

/**
 * Milliseconds until the next exchange that nobody asked for; null for none. Writing, coming online and looking at
 * the page again start one at once, so this only serves other devices' entries and a camp computer that comes back:
 * unsent entries arrive within ten seconds of its return. A page nobody looks at and that owes nothing is silent.
 */
export function nextTalk({ failures, unsent, visible }: Situation): number | null {
  if (!visible && unsent === 0) return null;
  if (failures === 0) return idle;
  const most = unsent > 0 && visible ? longestWithUnsent : longest;
  return Math.min(firstRetry * 2 ** (failures - 1), most);
}
