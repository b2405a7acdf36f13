import { afterEach, describe, expect, it, vi } from 'vitest';
import { trouble } from '../trouble.ts';
import { settled } from './settled.ts';

describe('settled', () => {
  afterEach(() => {
    vi.useRealTimers();
  });

  it('J4: silence of four seconds is an unknown fate, not a success', async () => {
    vi.useFakeTimers();
    const silent = settled(new Promise(() => undefined), 'Saving', 'here');
    const told = expect(silent).rejects.toMatchObject({
      trouble: 'unknown fate',
      what: expect.stringContaining('silent'),
    });
    await vi.advanceTimersByTimeAsync(4001);
    await told;
  });

  it('gives what the work gives', async () => {
    expect(await settled(Promise.resolve(5), 'Reading', 'here')).toBe(5);
  });

  it.each([
    ['QuotaExceededError', 'disk full'],
    ['UnknownError', 'unknown fate'],
    ['AbortError', 'unknown fate'],
    ['VersionError', 'newer version'],
  ])('%s is told as "%s"', async (name, kind) => {
    const failed = Promise.reject(new DOMException('no', name));
    await expect(settled(failed, 'Saving', 'here')).rejects.toMatchObject({ trouble: kind });
  });

  it('passes our own words on', async () => {
    const own = trouble('refused', 'It belongs elsewhere', 'here', 'Send it there.');
    await expect(settled(Promise.reject(own), 'Saving', 'here')).rejects.toBe(own);
  });
});
