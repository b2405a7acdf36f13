import type { Answer, Answers, Task, Trouble } from './task.ts';

/** Someone who reads: a thread of its own. */
interface Thread {
  give(task: Task): void;
  end(): void;
}

/** @param answer called once for each task; @param broken the thread died */
export type OpenThread = (answer: (answer: Answer) => void, broken: () => void) => Thread;

/** One file being read. */
export interface Reading {
  /** Rejects with a ReadingTrouble. A task given while another is under way waits for it. */
  ask<Do extends Task['do']>(task: Extract<Task, { readonly do: Do }>): Promise<Answers[Do]>;
  /** Stops the thread, whatever it does. What was asked is never answered. */
  stop(): void;
}

export class ReadingTrouble extends Error {
  readonly trouble: Trouble;

  constructor(trouble: Trouble) {
    super(trouble.is);
    this.name = 'ReadingTrouble';
    this.trouble = trouble;
  }
}

/**
 * Milliseconds. Reading a season's tables takes a second or two on a tablet; deciding thousands of rows one after the
 * other takes longer, is bounded by the file, and a person can leave it. Common practice, no source.
 */
const patience: Readonly<Record<Task['do'], number>> = { read: 60_000, look: 300_000, decide: 300_000 };

/**
 * Reads a file in a thread of its own, which is stopped when one task takes longer than its `limits` say: whatever
 * the file does, the screens go on.
 */
export function startReading(open: OpenThread = openWorker, limits = patience): Reading {
  let thread: Thread | null = null;
  let isOver = false;
  let last: Promise<unknown> = Promise.resolve();
  let hear: ((answer: Answer) => void) | null = null;

  const end = () => {
    isOver = true;
    thread?.end();
    thread = null;
  };

  const give = (task: Task): Promise<Answer> =>
    new Promise((resolve) => {
      const fail = (trouble: Trouble) => {
        end();
        resolve({ ok: false, trouble });
      };
      if (isOver) {
        fail({ is: 'broken' });
        return;
      }
      const limit = limits[task.do];
      const timer = setTimeout(() => fail({ is: 'too long', seconds: limit / 1000 }), limit);
      hear = (answer) => {
        clearTimeout(timer);
        resolve(answer);
      };
      try {
        thread ??= open(
          (answer) => hear?.(answer),
          () => {
            end();
            hear?.({ ok: false, trouble: { is: 'broken' } });
          },
        );
        thread.give(task);
      } catch {
        clearTimeout(timer);
        fail({ is: 'broken' });
      }
    });

  return {
    async ask<Do extends Task['do']>(task: Extract<Task, { readonly do: Do }>): Promise<Answers[Do]> {
      const answered = last.then(() => give(task));
      last = answered;
      const answer = await answered;
      if (!answer.ok) throw new ReadingTrouble(answer.trouble);
      return answer.answer as Answers[Do];
    },
    stop: end,
  };
}

const openWorker: OpenThread = (answer, broken) => {
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'tables' });
  worker.addEventListener('message', (event: MessageEvent<Answer>) => answer(event.data));
  worker.addEventListener('error', broken);
  return { give: (task) => worker.postMessage(task), end: () => worker.terminate() };
};
