import { describe, expect, it } from 'vitest';
import { nextTalk } from './pace.ts';

describe('nextTalk', () => {
  it('is silent on a page that nobody looks at and that owes nothing', () => {
    expect(nextTalk({ failures: 0, unsent: 0, visible: false })).toBeNull();
    expect(nextTalk({ failures: 3, unsent: 0, visible: false })).toBeNull();
  });

  it('asks every ten seconds while somebody looks and all is well', () => {
    expect(nextTalk({ failures: 0, unsent: 0, visible: true })).toBe(10_000);
  });

  it('backs off while the camp computer is away, up to a minute', () => {
    const waits = [1, 2, 3, 4, 7, 40].map((failures) => nextTalk({ failures, unsent: 0, visible: true }));
    expect(waits).toEqual([1_000, 2_000, 4_000, 8_000, 60_000, 60_000]);
  });

  it('keeps within ten seconds while a visible page owes entries', () => {
    expect(nextTalk({ failures: 40, unsent: 2, visible: true })).toBe(8_000);
    expect(nextTalk({ failures: 40, unsent: 2, visible: false })).toBe(60_000);
  });
});
