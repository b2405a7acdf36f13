import { Worker } from 'node:worker_threads';
import { type Backup, trouble } from '@firnbook/storage/sqlite';

export interface BackupTask {
  readonly dataFolder: string;
  readonly campaign: string;
  readonly target: string;
}

export type BackupAnswer =
  | { readonly ok: true; readonly backup: Backup }
  | {
      readonly ok: false;
      readonly kind: Parameters<typeof trouble>[0];
      readonly what: string;
      readonly where: string;
      readonly mend: string;
    };

/**
 * Makes a backup in a thread of its own: copying and reading back a season takes seconds, and meanwhile tablets
 * want their answers. Then thins the generations on that medium.
 *
 * @throws StoreTrouble as `backUp`
 */
export async function backUpApart(task: BackupTask): Promise<Backup> {
  const worker = startWorker(task);
  try {
    const answer = await new Promise<BackupAnswer>((resolve, reject) => {
      worker.once('message', resolve);
      worker.once('error', reject);
      worker.once('exit', () => reject(new Error('The backup ended without an answer.')));
    });
    if (answer.ok) return answer.backup;
    throw trouble(answer.kind, answer.what, answer.where, answer.mend);
  } finally {
    await worker.terminate();
  }
}

/** Run from the sources (the tests do), a thread needs their loader first; built, it starts as it is. */
function startWorker(task: BackupTask): Worker {
  const options = { workerData: task };
  if (!import.meta.url.endsWith('.ts'))
    return new Worker(new URL('./backup-worker.js', import.meta.url), options);
  const source = new URL('./backup-worker.ts', import.meta.url).href;
  const loader = import.meta.resolve('tsx/esm/api');
  const load = `import(${JSON.stringify(loader)}).then(({ register }) => { register(); return import(${JSON.stringify(source)}); })`;
  return new Worker(load, { ...options, eval: true, execArgv: ['--conditions=source'] });
}
