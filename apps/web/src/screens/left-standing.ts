import { useSyncExternalStore } from 'react';
import { keep, recall } from '../device/kept.ts';

/**
 * Findings that a person has answered with "it is right as it stands". Remembered on this device alone, by the
 * hole, each under the reading that was judged: a corrected reading asks again.
 */
export interface LeftStanding {
  has(key: string): boolean;
  leave(key: string): void;
  askAgain(): void;
}

const here = new Map<string, string>();
const listeners = new Set<() => void>();

export function useLeftStanding(hole: string): LeftStanding {
  const text = useSyncExternalStore(listen, () => textOf(hole));
  const keys = keysIn(text);
  const set = (next: readonly string[]) => {
    // Also where the browser refuses to keep it: then it lasts until the page is closed.
    here.set(hole, JSON.stringify(next));
    keep(nameOf(hole), JSON.stringify(next));
    for (const listener of listeners) listener();
  };
  return {
    has: (key) => keys.includes(key),
    leave: (key) => set([...keys.filter((one) => one !== key), key]),
    askAgain: () => set([]),
  };
}

/** What another version wrote, or was damaged, counts as none. */
export function keysIn(text: string): readonly string[] {
  try {
    const value: unknown = JSON.parse(text);
    return Array.isArray(value) ? value.filter((one) => typeof one === 'string') : [];
  } catch {
    return [];
  }
}

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function textOf(hole: string): string {
  return here.get(hole) ?? recall(nameOf(hole)) ?? '[]';
}

function nameOf(hole: string): string {
  return `left.${hole}`;
}
