import { solveDepths } from '@firnbook/science/depth';
import type { Job, Solved } from './job.ts';

/** Total: a job that cannot be solved is answered in words. */
export function runJob({ turn, readings, assumptions }: Job): Solved {
  try {
    return { turn, ok: true, solution: solveDepths(readings, assumptions) };
  } catch (error) {
    return { turn, ok: false, problem: error instanceof Error ? error.message : String(error) };
  }
}
