import { parentPort, workerData } from 'node:worker_threads';
import { backUp, isTrouble, thinBackups } from '@firnbook/storage/sqlite';
import { backUpNetwork } from '../network/backup.ts';
import type { BackupAnswer, BackupTask } from './back-up-apart.ts';

const { dataFolder, campaign, target } = workerData as BackupTask;

const answer = async (): Promise<BackupAnswer> => {
  try {
    if (campaign === null) {
      backUpNetwork(dataFolder, target);
      return { ok: true, backup: null };
    }
    const backup = await backUp(dataFolder, campaign, target);
    thinBackups(target, campaign);
    return { ok: true, backup };
  } catch (error) {
    if (isTrouble(error)) {
      const { trouble: kind, what, where, mend } = error;
      return { ok: false, kind, what, where, mend };
    }
    const code = (error as NodeJS.ErrnoException).code;
    if (code !== 'ENOSPC' && code !== 'EDQUOT' && code !== 'EROFS' && code !== 'EIO') throw error;
    const what = code === 'EIO' ? 'The stick does not answer' : 'The stick takes no more';
    const mend = 'Take another stick, or free some room on this one.';
    return { ok: false, kind: code === 'EIO' ? 'unknown fate' : 'disk full', what, where: target, mend };
  }
};

parentPort?.postMessage(await answer());
