import type { Done, Job } from './job.ts';

/** Someone who takes one job at a time: a worker, or this thread. */
interface Bench {
  give(job: Job): void;
  close(): void;
}

/** @param name of the thread, for those who look at it in the browser's tools */
export type OpenBench = (name: string, answer: (done: Done) => void) => Bench;

/** A worker; this thread where none can start or it dies, which then also does the job that was under way. */
export const openWorker: OpenBench = (name, answer) => {
  if (typeof Worker === 'undefined') return openHere(name, answer);
  let worker: Worker;
  try {
    worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name });
  } catch {
    return openHere(name, answer);
  }
  let underWay: Job | null = null;
  let instead: Bench | null = null;
  worker.addEventListener('message', (event: MessageEvent<Done>) => {
    underWay = null;
    answer(event.data);
  });
  worker.addEventListener('error', () => {
    worker.terminate();
    instead ??= openHere(name, answer);
    if (underWay !== null) instead.give(underWay);
    underWay = null;
  });
  return {
    give(job) {
      if (instead !== null) {
        instead.give(job);
        return;
      }
      underWay = job;
      worker.postMessage(job);
    },
    close: () => worker.terminate(),
  };
};

/**
 * After what is going on now, so that a caller sees its own state settled before the answer. What solves is fetched
 * only where no worker does it; where it cannot come, that is said.
 */
const openHere: OpenBench = (_, answer) => ({
  give(job) {
    import('./run-job.ts')
      .then(({ runJob }) => runJob(job))
      .catch((error: unknown): Done => {
        const problem = error instanceof Error ? error.message : String(error);
        return { turn: job.turn, outcome: { ok: false, problem } };
      })
      .then(answer);
  },
  close: () => undefined,
});
