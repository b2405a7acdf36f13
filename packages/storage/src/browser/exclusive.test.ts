import { setTimeout as pause } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { exclusive } from './exclusive.ts';
import { lendIndexedDb } from './fake.suite.ts';

describe('exclusive', () => {
  let giveBack: () => void;
  beforeEach(() => {
    giveBack = lendIndexedDb();
  });
  afterEach(() => {
    giveBack();
    vi.unstubAllGlobals();
  });

  it('without Web Locks, work under one name runs one after the other', async () => {
    vi.stubGlobal('navigator', {});
    const seen: string[] = [];
    const work = (name: string) => async () => {
      seen.push(`${name} begins`);
      await pause(15);
      seen.push(`${name} ends`);
      return name;
    };
    const done = await Promise.all(['a', 'b', 'c'].map((name) => exclusive('chain', work(name))));
    expect(done).toEqual(['a', 'b', 'c']);
    expect(seen).toEqual(['a begins', 'a ends', 'b begins', 'b ends', 'c begins', 'c ends']);
  });

  it('without Web Locks, a failure of the work is told and the turn passes on', async () => {
    vi.stubGlobal('navigator', {});
    const failed = exclusive('chain', async () => {
      await pause(5);
      throw new Error('the device is full');
    });
    const next = exclusive('chain', async () => 'next');
    await expect(failed).rejects.toThrow('the device is full');
    expect(await next).toBe('next');
  });

  it('with Web Locks it asks for one under our name', async () => {
    const request = vi.fn((_name: string, work: () => Promise<unknown>) => work());
    vi.stubGlobal('navigator', { locks: { request } });
    expect(await exclusive('chain', async () => 7)).toBe(7);
    expect(request.mock.calls[0]?.[0]).toBe('firnbook-chain');
  });
});
