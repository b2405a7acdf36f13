import { type OpenBench, openWorker } from './bench.ts';
import type { Answers, Done, Job, Outcome, Task } from './job.ts';

/** One question out of the four, and what answers it. */
interface Question<Do extends Task['do'] = Task['do']> {
  readonly hole: string;
  readonly task: Extract<Task, { do: Do }>;
  readonly tell: (outcome: Outcome<Answers[Do]>) => void;
}

export interface Solver {
  /**
   * Ask something about a hole. The latest wins: an answer overtaken by a newer question of its kind about the same
   * hole is never told, and a question that nobody has started on is replaced. Depths are worked out by a thread of
   * their own, so that no form waits for what is only looked at.
   */
  ask<Do extends Task['do']>(question: Question<Do>): void;
  /** Whether an answer is still to come. */
  isBusy(): boolean;
  close(): void;
}

export function createSolver(openBench: OpenBench = openWorker): Solver {
  const depths = createQueue(openBench, 'depths');
  const looks = createQueue(openBench, 'looks');
  return {
    ask: (question) => (question.task.do === 'depths' ? depths : looks).ask(question as AnyQuestion),
    isBusy: () => depths.isBusy() || looks.isBusy(),
    close() {
      depths.close();
      looks.close();
    },
  };
}

/** What a question is once its kind is a matter of its task alone. */
interface AnyQuestion {
  readonly hole: string;
  readonly task: Task;
  readonly tell: (outcome: Done['outcome']) => void;
}

/** Questions before one bench, which is opened with the first of them. */
function createQueue(openBench: OpenBench, name: string) {
  const waiting = new Map<string, AnyQuestion>();
  let current: { readonly job: Job; readonly question: AnyQuestion } | null = null;
  let turn = 0;
  let bench: ReturnType<OpenBench> | null = null;
  let isClosed = false;

  const next = () => {
    const first = waiting.values().next();
    if (current !== null || first.done || isClosed) return;
    const question = first.value;
    waiting.delete(keyOf(question));
    turn += 1;
    current = { job: { turn, task: question.task }, question };
    bench ??= openBench(name, hear);
    bench.give(current.job);
  };

  const hear = ({ turn: answered, outcome }: Done) => {
    if (current === null || answered !== current.job.turn) return;
    const { question } = current;
    current = null;
    const isOvertaken = waiting.has(keyOf(question));
    if (!isOvertaken && !isClosed) question.tell(outcome);
    next();
  };

  return {
    ask(question: AnyQuestion) {
      waiting.set(keyOf(question), question);
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

/** A newer question of this key replaces an older one. */
const keyOf = ({ hole, task }: AnyQuestion): string => `${task.do} ${hole}`;
