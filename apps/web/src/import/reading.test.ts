import { afterEach, describe, expect, it, vi } from 'vitest';
import { type OpenThread, startReading } from './reading.ts';
import type { Answer } from './task.ts';

/** A thread that answers when the test says so. */
function slowThread() {
  const given: string[] = [];
  let answer: (answer: Answer) => void = () => undefined;
  let broken: () => void = () => undefined;
  let ended = 0;
  const open: OpenThread = (hear, fail) => {
    answer = hear;
    broken = fail;
    return {
      give: (task) => void given.push(task.do),
      end: () => {
        ended += 1;
      },
    };
  };
  return {
    open,
    given,
    answer: (one: Answer) => answer(one),
    breakDown: () => broken(),
    get ended() {
      return ended;
    },
  };
}

const read = { do: 'read', file: new File(['a'], 'a.csv') } as const;
const tick = () => new Promise((resolve) => setTimeout(resolve));

describe('startReading', () => {
  afterEach(() => vi.useRealTimers());

  it('gives one task at a time and hands back its answer', async () => {
    const thread = slowThread();
    const reading = startReading(thread.open);
    const [first, second] = [reading.ask(read), reading.ask(read)];
    await tick();
    expect(thread.given).toEqual(['read']);
    thread.answer({ ok: true, answer: [] });
    expect(await first).toEqual([]);
    await tick();
    expect(thread.given).toEqual(['read', 'read']);
    thread.answer({ ok: false, trouble: { is: 'broken' } });
    await expect(second).rejects.toMatchObject({ trouble: { is: 'broken' } });
  });

  it('ends the thread when a task takes too long, and says how long that was', async () => {
    vi.useFakeTimers();
    const thread = slowThread();
    const asked = startReading(thread.open, { read: 5_000, look: 1, decide: 1 }).ask(read);
    const told = expect(asked).rejects.toMatchObject({ trouble: { is: 'too long', seconds: 5 } });
    await vi.advanceTimersByTimeAsync(5_001);
    await told;
    expect(thread.ended).toBe(1);
  });

  it('ends with a thread that dies', async () => {
    const thread = slowThread();
    const reading = startReading(thread.open);
    const asked = reading.ask(read);
    await tick();
    thread.breakDown();
    await expect(asked).rejects.toMatchObject({ trouble: { is: 'broken' } });
    await expect(reading.ask(read)).rejects.toMatchObject({ trouble: { is: 'broken' } });
  });
});
