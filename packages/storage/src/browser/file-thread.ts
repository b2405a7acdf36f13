import { type Gate, leave, makeGate, stay } from './leaving.ts';

/** What the file worker hears before the first job. */
export interface FirstWord {
  readonly gate: Gate;
}

/** What the file worker is asked; see lines.ts for what becomes of lines. */
export type FileJob = { readonly name: string } & (
  | { readonly do: 'end' }
  | { readonly do: 'page'; readonly from: number }
  | { readonly do: 'add'; readonly lines: readonly string[]; readonly size: number }
  /** Names that begin so. */
  | { readonly do: 'list' }
  | { readonly do: 'read' }
  /** The whole file anew, flushed. */
  | { readonly do: 'write'; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly do: 'remove' }
  /** The next four keep room: see room-files.ts. */
  | { readonly do: 'lay'; readonly size: number }
  | { readonly do: 'sing'; readonly count: number; readonly isFlushed: boolean }
  | { readonly do: 'probe'; readonly count: number }
  | { readonly do: 'let go' }
);

export type FileReply =
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly error: { readonly name: string; readonly message: string } };

interface Waiting {
  resolve(result: unknown): void;
  reject(error: Error): void;
}

let worker: Worker | null = null;
let jobs = 0;
const waiting = new Map<number, Waiting>();

/**
 * Files exist in secure contexts, and not in every private window: there the first job fails. They lie beside
 * IndexedDB and not in it: what makes Chromium drop a database leaves them alone.
 */
export function mayHaveFiles(): boolean {
  return typeof Worker !== 'undefined' && navigator.storage?.getDirectory !== undefined;
}

export function askFiles(job: FileJob): Promise<unknown> {
  worker ??= start();
  const id = jobs;
  jobs += 1;
  const answer = new Promise<unknown>((resolve, reject) => waiting.set(id, { resolve, reject }));
  worker.postMessage({ ...job, id });
  return answer;
}

/** One for all workers of this page. */
let gate: Gate | null | undefined;

function theGate(): Gate | null {
  if (gate !== undefined) return gate;
  const made = makeGate();
  gate = made;
  if (made !== null) {
    addEventListener('pagehide', () => leave(made));
    addEventListener('pageshow', () => stay(made));
  }
  return made;
}

function start(): Worker {
  // Only the bundler of the screens reads this address, and it reads sources.
  const made = new Worker(new URL('./file-worker.ts', import.meta.url), { type: 'module', name: 'files' });
  const shared = theGate();
  if (shared !== null) made.postMessage({ gate: shared } satisfies FirstWord);
  made.addEventListener('message', ({ data }: MessageEvent<FileReply>) => {
    const one = waiting.get(data.id);
    waiting.delete(data.id);
    if ('error' in data) one?.reject(Object.assign(new Error(data.error.message), { name: data.error.name }));
    else one?.resolve(data.result);
  });
  made.addEventListener('error', (event) => {
    for (const one of waiting.values()) one.reject(new Error(event.message || 'The file worker ended.'));
    waiting.clear();
    worker = null;
  });
  return made;
}
