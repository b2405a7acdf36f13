import type { Derive } from './verifier.ts';

/** In a thread of its own, which ends with the answer: its memory goes back to the tablet. */
export const deriveApart: Derive = (pin, salt) =>
  new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'pins' });
    worker.addEventListener('message', ({ data }: MessageEvent<string>) => {
      worker.terminate();
      resolve(data);
    });
    worker.addEventListener('error', (event) => {
      worker.terminate();
      reject(new Error(event.message));
    });
    worker.postMessage({ pin, salt });
  });
