import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { wasHeld, watchLoss } from './loss.ts';

beforeEach(() => {
  const kept = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, text: string) => kept.set(name, text),
    removeItem: (name: string) => kept.delete(name),
  });
});
afterEach(() => vi.unstubAllGlobals());

describe('watchLoss', () => {
  it('says nothing of a campaign that is new, or that is all there', () => {
    const watch = watchLoss('cer-a');
    watch.opened(0, 0);
    watch.holds();
    expect(watch.current).toBeNull();
    const next = watchLoss('cer-a');
    next.opened(12, 0);
    expect(next.current).toBeNull();
  });

  it('a campaign that was held and is empty is lost, until a person has read it', () => {
    watchLoss('cer-a').opened(12, 0);
    expect(wasHeld('cer-a')).toBe(true);
    const watch = watchLoss('cer-a');
    watch.opened(0, 0);
    expect(watch.current).toEqual({ kind: 'lost', count: 0 });
    const later = watchLoss('cer-a');
    later.opened(12, 0);
    expect(later.current).toEqual({ kind: 'lost', count: 0 });
    later.seen();
    expect(watchLoss('cer-a').current).toBeNull();
  });

  it('what came back from the second copy is counted', () => {
    const watch = watchLoss('cer-a');
    watch.opened(12, 12);
    expect(watch.current).toEqual({ kind: 'put back', count: 12 });
  });

  it('a browser that remembers nothing costs the word, not the start', () => {
    vi.stubGlobal('localStorage', undefined);
    const watch = watchLoss('cer-a');
    watch.opened(0, 0);
    expect(watch.current).toBeNull();
  });
});
