import { createReader } from './reader.ts';
import type { Task } from './task.ts';

/** The thread that reads files, which may be anything: it is stopped from outside when it takes too long. */
const reader = createReader({
  now: () => Date.now(),
  randomBytes: (length) => crypto.getRandomValues(new Uint8Array(length)),
});

self.addEventListener('message', async (event: MessageEvent<Task>) => {
  self.postMessage(await reader.answer(event.data));
});
