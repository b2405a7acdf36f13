import type { Job } from './job.ts';
import { runJob } from './run-job.ts';

/** The thread that solves, so that a form never waits for a depth. */
self.addEventListener('message', (event: MessageEvent<Job>) => {
  void runJob(event.data).then((done) => self.postMessage(done));
});
