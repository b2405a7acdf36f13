import { Worker } from 'node:worker_threads';
import { type Place, TableError } from '@firnbook/exchange';
import type { ReadSheets } from '@firnbook/exchange/sheets';

export interface WorkerTask {
  readonly bytes: Uint8Array;
  readonly name: string;
}

export type WorkerAnswer =
  | { readonly ok: true; readonly read: ReadSheets }
  | { readonly ok: false; readonly what: string; readonly place: Place; readonly mend: string };

export interface WorkerLimits {
  readonly milliseconds: number;
  /** Of the worker's heap. */
  readonly megabytes: number;
}

/** A season's tables take a second and some ten megabytes; common practice, no source. */
const usual: WorkerLimits = { milliseconds: 60_000, megabytes: 1_024 };

/**
 * Reads a table file in a thread of its own, which is stopped when it takes too long or too much memory: whatever
 * the file does, this process goes on.
 *
 * @throws TableError for a file that cannot be used
 */
export const readInWorker = async (task: WorkerTask, limits: WorkerLimits = usual): Promise<ReadSheets> => {
  const worker = startWorker(task, limits);
  let timer: NodeJS.Timeout | undefined;
  try {
    const answer = await new Promise<WorkerAnswer>((resolve, reject) => {
      const stopped = (what: string) => reject(new TableError(what, { file: task.name }, tooMuch));
      timer = setTimeout(() => {
        stopped(`reading it took more than ${limits.milliseconds / 1000} seconds`);
      }, limits.milliseconds);
      worker.once('message', resolve);
      worker.once('error', (error: NodeJS.ErrnoException) => {
        if (error.code === 'ERR_WORKER_OUT_OF_MEMORY')
          stopped(`reading it took more than ${limits.megabytes} MB of memory`);
        else reject(error);
      });
      worker.once('exit', () => stopped('reading it ended without an answer'));
    });
    if (answer.ok) return answer.read;
    throw new TableError(answer.what, answer.place, answer.mend);
  } finally {
    clearTimeout(timer);
    await worker.terminate();
  }
};

const tooMuch = 'Take out what does not belong to the tables, or split the file into several.';

/** Run from the sources (the tests do), a thread needs their loader first; built, it starts as it is. */
const startWorker = (task: WorkerTask, { megabytes }: WorkerLimits): Worker => {
  const options = {
    workerData: task,
    resourceLimits: { maxOldGenerationSizeMb: megabytes, maxYoungGenerationSizeMb: 64, stackSizeMb: 4 },
  };
  if (!import.meta.url.endsWith('.ts'))
    return new Worker(new URL('./sheets-worker.js', import.meta.url), options);
  const source = new URL('./sheets-worker.ts', import.meta.url).href;
  // Found from here: a worker made of text would look in whatever folder the person is in.
  const loader = import.meta.resolve('tsx/esm/api');
  const load = `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`;
  return new Worker(load, { ...options, eval: true, execArgv: ['--conditions=source'] });
};
