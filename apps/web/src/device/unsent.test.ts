import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { noteUnsent, unsentAnywhere } from './unsent.ts';

beforeEach(() => {
  const kept: Record<string, string> = {};
  vi.stubGlobal(
    'localStorage',
    new Proxy(kept, {
      get: (target, name) => {
        if (name === 'getItem') return (key: string) => target[key] ?? null;
        if (name === 'setItem') return (key: string, text: string) => void (target[key] = text);
        return Reflect.get(target, name);
      },
    }),
  );
});
afterEach(() => vi.unstubAllGlobals());

describe('what the camp computer has not confirmed', () => {
  it('B6: counts campaigns that are not open, as they were when they were last looked at', () => {
    noteUnsent('cer-a', { total: 12, onCamp: 9 });
    noteUnsent('cer-b', { total: 40, onCamp: 40 });
    expect(unsentAnywhere(new Map())).toBe(3);
    noteUnsent('cer-b', { total: 41, onCamp: 40 });
    expect(unsentAnywhere(new Map())).toBe(4);
  });

  it('an open book is asked itself; one that is still being read has said nothing yet', () => {
    noteUnsent('cer-a', { total: 12, onCamp: 9 });
    noteUnsent('cer-a', { total: 0, onCamp: 0 });
    expect(unsentAnywhere(new Map([['cer-a', { total: 0, onCamp: 0 }]]))).toBe(3);
    expect(unsentAnywhere(new Map([['cer-a', { total: 15, onCamp: 10 }]]))).toBe(5);
    expect(unsentAnywhere(new Map([['cer-c', { total: 2, onCamp: 1 }]]))).toBe(4);
  });
});
