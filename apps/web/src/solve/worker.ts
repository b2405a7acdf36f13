import type { Job } from './job.ts';
import { runJob } from './run-job.ts';

/** The thread that solves, so that a form never waits for a depth. */
self.addEventListener('message', (event: MessageEvent<Job>) => {
  self.postMessage(runJob(event.data));
});
