import { describe, expect, it } from 'vitest';
import { watchStanding } from './standing.ts';

const answer = (status: number, body: unknown) => async () => new Response(JSON.stringify(body), { status });

/** Answers in turn; one that is an Error is no answer at all. */
const campThat = (...says: readonly ((() => Promise<Response>) | Error)[]) => {
  const left = [...says];
  return (async () => {
    const next = left.shift();
    if (next === undefined || next instanceof Error) throw next ?? new Error('asked too often');
    return next();
  }) as typeof fetch;
};

describe('watchStanding', () => {
  it('tells once that the device is not paired, then that it was revoked, and that it is let in again', async () => {
    const told: string[] = [];
    const watch = watchStanding(
      campThat(
        answer(200, []),
        answer(401, { what: 'x', why: 'not paired' }),
        answer(401, { what: 'x', why: 'not paired' }),
        answer(401, { what: 'x', why: 'revoked' }),
        answer(201, {}),
      ),
    );
    watch.subscribe(() => told.push(watch.current()));
    for (let index = 0; index < 5; index += 1) await watch.ask('/api/campaigns');
    expect(told).toEqual(['not paired', 'revoked', 'welcome']);
  });

  it('the camp computer away, on another fault, or another program at its address changes nothing', async () => {
    const watch = watchStanding(
      campThat(
        answer(401, { why: 'revoked' }),
        new TypeError('network'),
        answer(503, { what: 'x' }),
        answer(404, 'no JSON of ours'),
      ),
    );
    await watch.ask('/x');
    await expect(watch.ask('/x')).rejects.toThrow('network');
    await watch.ask('/x');
    await watch.ask('/x');
    expect(watch.current()).toBe('revoked');
  });

  it('the answer can still be read by whoever asked', async () => {
    const watch = watchStanding(campThat(answer(401, { what: 'This device was revoked', why: 'revoked' })));
    expect(((await (await watch.ask('/x')).json()) as { what: string }).what).toBe('This device was revoked');
  });

  it('a refusal without a word of ours counts as not paired', async () => {
    const watch = watchStanding(campThat(async () => new Response('<html>', { status: 401 })));
    await watch.ask('/x');
    expect(watch.current()).toBe('not paired');
  });
});
