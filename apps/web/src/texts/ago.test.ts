import { describe, expect, it } from 'vitest';
import { ago } from './ago.ts';

const now = Date.parse('2026-06-14T12:00:00Z');

describe('how long ago', () => {
  it('ago: the coarsest words that still tell', () => {
    expect(ago('2026-06-14T11:59:30Z', now)).toBe('just now');
    expect(ago('2026-06-14T11:48:00Z', now)).toBe('12 min ago');
    expect(ago('2026-06-14T09:00:00Z', now)).toBe('3 h ago');
    expect(ago('2026-06-11T09:00:00Z', now)).toBe('3 days ago');
  });
  it('ago: a clock ahead of the time shown says just now, never a negative age', () => {
    expect(ago('2026-06-14T12:05:00Z', now)).toBe('just now');
  });
});
