/**
 * Small conveniences that this browser remembers beside the record: who writes, the device's name, half-filled
 * forms. Never a reading that was acknowledged. A browser that refuses to remember costs the convenience, no more.
 */
const prefix = 'firnbook.';
let draftChanged: () => void = () => undefined;

/** Calls `then` at every change of a half-filled form. */
export function onDrafts(then: () => void): void {
  draftChanged = then;
}

export function keep(name: string, text: string): void {
  try {
    localStorage.setItem(prefix + name, text);
  } catch {
    // Full or forbidden: see above.
  }
  if (name.startsWith('draft.')) draftChanged();
}

export function recall(name: string): string | null {
  try {
    return localStorage.getItem(prefix + name);
  } catch {
    return null;
  }
}

export function forget(name: string): void {
  try {
    localStorage.removeItem(prefix + name);
  } catch {
    // As above.
  }
  if (name.startsWith('draft.')) draftChanged();
}

/** Names of what is remembered that begin so. */
export function keptNames(beginning: string): readonly string[] {
  try {
    return Object.keys(localStorage)
      .filter((name) => name.startsWith(prefix + beginning))
      .map((name) => name.slice(prefix.length));
  } catch {
    return [];
  }
}

/** Calls `then` when another tab of this browser keeps or forgets what has this name; stops when what is returned is called. */
export function onKeptElsewhere(name: string, then: () => void): () => void {
  // A book without a page, as in a test, has no other tabs.
  if (typeof window === 'undefined') return () => undefined;
  const hear = (event: StorageEvent) => {
    if (event.key === prefix + name || event.key === null) then();
  };
  window.addEventListener('storage', hear);
  return () => window.removeEventListener('storage', hear);
}
