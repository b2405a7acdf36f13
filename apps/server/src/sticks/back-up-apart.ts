import { type Backup, trouble } from '@firnbook/storage/sqlite';
import { startWorker } from './start-worker.ts';

export interface BackupTask {
  readonly dataFolder: string;
  /** Null for the camp network. */
  readonly campaign: string | null;
  readonly target: string;
}

export type BackupAnswer =
  | { readonly ok: true; readonly backup: Backup | null }
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
export async function backUpApart(task: BackupTask & { readonly campaign: string }): Promise<Backup> {
  const backup = await run(task);
  if (backup === null) throw new Error('The backup ended without an answer.');
  return backup;
}

/**
 * The same for the camp network.
 *
 * @throws StoreTrouble as `backUpNetwork`
 */
export async function backUpNetworkApart(dataFolder: string, target: string): Promise<void> {
  await run({ dataFolder, campaign: null, target });
}

async function run(task: BackupTask): Promise<Backup | null> {
  const worker = startWorker(new URL('./backup-worker.js', import.meta.url), task);
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
