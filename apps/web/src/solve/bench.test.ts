import { defaultAssumptions } from '@firnbook/science/depth';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openWorker } from './bench.ts';
import { type Done, type Job, packed, unpacked } from './job.ts';

const job = (turn: number): Job => ({
  turn,
  task: {
    do: 'depths',
    readings: { runs: [{ id: 'r1', from: 0, to: 1 }], pieces: [], soundings: [] },
    assumptions: defaultAssumptions,
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

describe('packed', () => {
  it('a job comes out as it went in, numbers to the last bit', () => {
    const depths = job(3);
    const task = { ...depths.task, readings: { runs: [{ id: 'r1', from: 0.1 + 0.2, to: 1 / 3 }] } } as never;
    const jobs: readonly Job[] = [depths, { turn: 4, task }, { turn: 5, task: { do: 'density' } as never }];
    expect(jobs.map((one) => unpacked(structuredClone(packed(one))))).toEqual(jobs);
  });
});
