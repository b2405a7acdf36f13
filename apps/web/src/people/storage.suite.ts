import { afterEach, beforeEach, vi } from 'vitest';

/** What a browser remembers, for a test; another tab of it can be played by writing here. */
export function storageHere(): Map<string, string> {
  const stored = new Map<string, string>();
  beforeEach(() => {
    stored.clear();
    vi.stubGlobal('localStorage', {
      getItem: (name: string) => stored.get(name) ?? null,
      setItem: (name: string, text: string) => stored.set(name, text),
      removeItem: (name: string) => stored.delete(name),
    });
  });
  afterEach(() => vi.unstubAllGlobals());
  return stored;
}
