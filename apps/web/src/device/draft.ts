import { useCallback, useState } from 'react';
import { forget, keep, keptNames, recall } from './kept.ts';

export interface Draft<T> {
  readonly value: T;
  set(value: T): void;
  /** The form was kept as an entry, or given up. */
  clear(): void;
}

/**
 * What a person has typed into a form and not yet kept. Written at every change, so that a reload, a crashed tab or
 * an empty battery brings the form back as it was. `key` names form and thing ("piece:<run id>"); a form mounted
 * with another key reads that key's draft.
 */
export function useDraft<T>(key: string, initial: T): Draft<T> {
  const [held, setHeld] = useState<{ readonly key: string; readonly value: T }>(() => ({
    key,
    value: readDraft(key, initial),
  }));
  const value = held.key === key ? held.value : readDraft(key, initial);
  const set = useCallback(
    (next: T) => {
      keep(nameOf(key), JSON.stringify(next));
      setHeld({ key, value: next });
    },
    [key],
  );
  const clear = useCallback(() => {
    forget(nameOf(key));
    setHeld({ key, value: initial });
  }, [key, initial]);
  return { value, set, clear };
}

/** Begins a form that is not on the screen yet. */
export function writeDraft<T>(key: string, value: T): void {
  keep(nameOf(key), JSON.stringify(value));
}

/** A draft that another version wrote, or that was damaged, counts as none. */
export function readDraft<T>(key: string, initial: T): T {
  const text = recall(nameOf(key));
  if (text === null) return initial;
  try {
    const value: unknown = JSON.parse(text);
    if (
      value === null ||
      typeof value !== typeof initial ||
      Array.isArray(value) !== Array.isArray(initial)
    ) {
      return initial;
    }
    return isPlain(initial) ? { ...initial, ...(value as T) } : (value as T);
  } catch {
    return initial;
  }
}

/** A form that was begun on this device and not kept. */
export interface BegunDraft {
  /** Of what it would make, or "weigh": the first half of the draft's key. */
  readonly kind: string;
  /** Id of the hole, run or thing that it is about. */
  readonly about: string;
}

/** Every form that holds something typed or picked; one that was only opened counts as none. */
export function begunDrafts(): readonly BegunDraft[] {
  return keptNames(nameOf('')).flatMap((name) => {
    const [kind = '', about = ''] = name.slice(nameOf('').length).split(':');
    return about !== '' && holdsAnswer(parsed(recall(name))) ? [{ kind, about }] : [];
  });
}

function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? '');
  } catch {
    return null;
  }
}

function holdsAnswer(value: unknown): boolean {
  if (!isPlain(value)) return false;
  return Object.entries(value).some(([name, held]) => {
    if (name === 'text' || name === 'topBreak') return typeof held === 'string' && held !== '';
    if (name === 'readings' || name === 'unusual') return isPlain(held) && Object.keys(held).length > 0;
    return holdsAnswer(held);
  });
}

function isPlain(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function nameOf(key: string): string {
  return `draft.${key}`;
}
