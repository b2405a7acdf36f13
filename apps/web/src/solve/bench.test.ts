import { defaultAssumptions } from '@firnbook/science/depth';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openWorker } from './bench.ts';
import type { Done, Job } from './job.ts';

const job = (turn: number): Job => ({
  turn,
  task: {
    do: 'depths',
    asked: JSON.stringify({
      readings: { runs: [{ id: 'r1', from: 0, to: 1 }], pieces: [], soundings: [] },
      assumptions: defaultAssumptions,
    }),
  },
});

/** A worker that says nothing and dies when the test says so. */
class DeadWorker extends EventTarget {
  static last: DeadWorker;
  constructor() {
    super();
    DeadWorker.last = this;
  }
  postMessage(): void {}
  terminate(): void {}
}

afterEach(() => vi.unstubAllGlobals());

describe('openWorker', () => {
  it('goes on in this thread when the worker breaks down, with the job that was under way', async () => {
    vi.stubGlobal('Worker', DeadWorker);
    const told: Done[] = [];
    let heard: () => void = () => undefined;
    const bench = openWorker('depths', (done) => {
      told.push(done);
      heard();
    });
    const next = () => new Promise<void>((resolve) => (heard = resolve));
    const first = next();
    bench.give(job(1));
    DeadWorker.last.dispatchEvent(new Event('error'));
    await first;
    const second = next();
    bench.give(job(2));
    await second;
    expect(told.map(({ turn, outcome }) => [turn, outcome.ok])).toEqual([
      [1, true],
      [2, true],
    ]);
  });
});
