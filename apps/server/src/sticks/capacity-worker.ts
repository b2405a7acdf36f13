import { parentPort, workerData } from 'node:worker_threads';
import { isTrouble, testCapacity } from '@firnbook/storage/sqlite';
import type { CapacityAnswer, CapacityTask } from './naming.ts';

/** How often it tells how far it is, ms. */
const tellEvery = 300;

const { folder, most, seed, stop } = workerData as CapacityTask;
const asked = new Int32Array(stop);
const isAsked = () => Atomics.load(asked, 0) === 1;

const answer = (): CapacityAnswer => {
  let toldAt = 0;
  try {
    const tested = testCapacity(folder, most, seed, (far) => {
      if (isAsked()) throw new Error('A person stopped it.');
      if (Date.now() - toldAt < tellEvery) return;
      toldAt = Date.now();
      parentPort?.postMessage({ is: 'far', far } satisfies CapacityAnswer);
    });
    return { is: 'tested', tested };
  } catch (error) {
    if (isAsked()) return { is: 'stopped' };
    if (isTrouble(error)) return { is: 'failed', what: error.what, mend: error.mend };
    return {
      is: 'failed',
      what: 'The stick does not answer any more',
      mend: 'Was it taken out? Put it in and name it again, or take another one.',
    };
  }
};

parentPort?.postMessage(answer());
