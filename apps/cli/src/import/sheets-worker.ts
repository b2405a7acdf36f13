import { parentPort, workerData } from 'node:worker_threads';
import { readSheets, TableError } from '@firnbook/exchange/read-sheets';
import type { WorkerAnswer, WorkerTask } from './read-in-worker.ts';

const { bytes, name } = workerData as WorkerTask;

const answer = (): WorkerAnswer => {
  try {
    return { ok: true, read: readSheets(bytes, name) };
  } catch (error) {
    if (!(error instanceof TableError)) throw error;
    const { what, place, mend } = error;
    return { ok: false, what, place, mend };
  }
};

parentPort?.postMessage(answer());
