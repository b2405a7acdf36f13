import { startThread } from './thread.ts';

/** Whether the database's own check finds nothing wrong with a file. */
interface Structure {
  /** False also where the thread could not tell: then whoever asked looks for itself. */
  isSound(): Promise<boolean>;
  /** No matter what it would have found. */
  stop(): void;
}

/**
 * The check of the database's structure, in a thread of its own: it is a fifth of a start's work on a season, and the
 * rows can be read meanwhile.
 */
export function checkStructureApart(file: string): Structure {
  const thread = startThread(new URL('./structure-worker.js', import.meta.url), file);
  const sound = new Promise<boolean>((resolve) => {
    thread.once('message', (found) => resolve(found === true));
    thread.once('error', () => resolve(false));
    thread.once('exit', () => resolve(false));
  });
  return { isSound: () => sound, stop: () => void thread.terminate() };
}
