import type { DepthAssumptions, DepthReadings, DepthSolution } from '@firnbook/science/depth';
import type { Job, Solved } from './job.ts';
import { runJob } from './run-job.ts';

export type Outcome =
  | { readonly ok: true; readonly solution: DepthSolution }
  | { readonly ok: false; readonly problem: string };

export interface Solver {
  /**
   * Ask for a hole's depths. The latest wins: an answer overtaken by a newer question about the same hole is never
   * told, and a question that nobody has started on is replaced.
   */
  solve(
    hole: string,
    readings: DepthReadings,
    assumptions: DepthAssumptions,
    tell: (outcome: Outcome) => void,
  ): void;
  /** Whether an answer is still to come. */
  isBusy(): boolean;
  close(): void;
}

/** Someone who takes one job at a time: a worker, or this thread. */
interface Bench {
  give(job: Job): void;
  close(): void;
}

export type OpenBench = (answer: (solved: Solved) => void, broken: () => void) => Bench;

interface Question extends Omit<Job, 'turn'> {
  readonly hole: string;
  readonly tell: (outcome: Outcome) => void;
}

export function createSolver(openBench: OpenBench = openWorker): Solver {
  const waiting = new Map<string, Question>();
  let current: { readonly turn: number; readonly question: Question } | null = null;
  let turn = 0;
  let bench: Bench | null = null;
  let isClosed = false;

  const next = () => {
    const first = waiting.values().next();
    if (current !== null || first.done || isClosed) return;
    const question = first.value;
    waiting.delete(question.hole);
    turn += 1;
    current = { turn, question };
    bench ??= openBench(hear, fallBack);
    bench.give({ turn, readings: question.readings, assumptions: question.assumptions });
  };

  const hear = (solved: Solved) => {
    if (current === null || solved.turn !== current.turn) return;
    const { question } = current;
    current = null;
    const isOvertaken = waiting.has(question.hole);
    if (!isOvertaken && !isClosed) question.tell(solved);
    next();
  };

  /** A worker that cannot start or dies: this thread does its work from now on. */
  const fallBack = () => {
    bench?.close();
    bench = openHere(hear);
    if (current !== null) {
      const { question } = current;
      bench.give({ turn: current.turn, readings: question.readings, assumptions: question.assumptions });
    }
  };

  return {
    solve(hole, readings, assumptions, tell) {
      waiting.set(hole, { hole, readings, assumptions, tell });
      next();
    },
    isBusy: () => current !== null || waiting.size > 0,
    close() {
      isClosed = true;
      waiting.clear();
      bench?.close();
    },
  };
}

const openWorker: OpenBench = (answer, broken) => {
  if (typeof Worker === 'undefined') return openHere(answer);
  let worker: Worker;
  try {
    worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'depths' });
  } catch {
    return openHere(answer);
  }
  worker.addEventListener('message', (event: MessageEvent<Solved>) => answer(event.data));
  worker.addEventListener('error', broken);
  return { give: (job) => worker.postMessage(job), close: () => worker.terminate() };
};

/** After what is going on now, so that a caller sees its own state settled before the answer. */
function openHere(answer: (solved: Solved) => void): Bench {
  return {
    give: (job) => void setTimeout(() => answer(runJob(job))),
    close: () => undefined,
  };
}
