import { describe, expect, it } from 'vitest';
import { t } from '../texts/t.ts';
import { lacksOf } from './lacks.ts';

const good = { isSecure: true, persistence: 'promised', offlineStart: true, hasLocks: true } as const;

describe('lacksOf', () => {
  it('says nothing where nothing is missing, and before the browser has answered', () => {
    expect(lacksOf(good)).toEqual([]);
    expect(lacksOf({ ...good, persistence: null })).toEqual([]);
  });

  it('names plain http once, not each thing that plain http takes away', () => {
    const says = lacksOf({ isSecure: false, persistence: 'absent', offlineStart: false, hasLocks: false });
    expect(says).toHaveLength(1);
    expect(t(says[0]!)).toContain('https address');
  });

  it('names a refused promise and a missing service worker on a secure address', () => {
    const says = lacksOf({ ...good, persistence: 'refused', offlineStart: false });
    expect(says).toHaveLength(2);
    expect(t(says[0]!)).toContain('cannot start');
    expect(t(says[1]!)).toContain('has not promised');
  });
});
