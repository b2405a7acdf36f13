import { type DepthReadings, type DepthSolution, defaultAssumptions } from '@firnbook/science/depth';
import { describe, expect, it } from 'vitest';
import type { Job, Solved } from './job.ts';
import { createSolver, type OpenBench, type Outcome } from './solver.ts';

/** A bench that answers when the test says so. */
function slowBench() {
  const jobs: Job[] = [];
  let answer: (solved: Solved) => void = () => undefined;
  let broken: () => void = () => undefined;
  const open: OpenBench = (hear, fail) => {
    answer = hear;
    broken = fail;
    return { give: (job) => void jobs.push(job), close: () => undefined };
  };
  const solution = (name: string) => ({ solver: name }) as DepthSolution;
  return {
    open,
    jobs,
    finish: (name: string) => answer({ turn: jobs.at(-1)!.turn, ok: true, solution: solution(name) }),
    breakDown: () => broken(),
  };
}

const readings = (run: string): DepthReadings => ({
  runs: [{ id: run, from: 1, to: 2 }],
  pieces: [{ id: `${run}-piece`, run, length: 0.9, topBreak: 'fits' }],
  soundings: [],
});

describe('createSolver', () => {
  it('tells the latest answer only and skips questions that nobody has started on', () => {
    const bench = slowBench();
    const solver = createSolver(bench.open);
    const told: string[] = [];
    const tell = (outcome: Outcome) => told.push(outcome.ok ? outcome.solution.solver : outcome.problem);
    for (const run of ['r1', 'r2', 'r3']) solver.solve('hole', readings(run), defaultAssumptions, tell);
    bench.finish('of r1');
    bench.finish('of r3');
    expect(bench.jobs.map((job) => job.readings.runs[0]!.id)).toEqual(['r1', 'r3']);
    expect(told).toEqual(['of r3']);
    expect(solver.isBusy()).toBe(false);
  });

  it('solves several holes one after the other, each with its own latest', () => {
    const bench = slowBench();
    const solver = createSolver(bench.open);
    const told: string[] = [];
    solver.solve('a', readings('ra'), defaultAssumptions, () => told.push('a'));
    solver.solve('b', readings('rb'), defaultAssumptions, () => told.push('b'));
    bench.finish('first');
    expect(solver.isBusy()).toBe(true);
    bench.finish('second');
    expect(told).toEqual(['a', 'b']);
  });

  it('goes on in this thread when the worker breaks down', async () => {
    const bench = slowBench();
    const solver = createSolver(bench.open);
    const outcome = new Promise<Outcome>((resolve) =>
      solver.solve('hole', readings('r1'), defaultAssumptions, resolve),
    );
    bench.breakDown();
    const told = await outcome;
    expect(told.ok && told.solution.pieces.map((piece) => piece.id)).toEqual(['r1-piece']);
  });

  it('answers in words where the readings cannot be solved', async () => {
    const solver = createSolver((answer) => ({
      give: (job) => answer({ turn: job.turn, ok: false, problem: 'piece P1: names no run' }),
      close: () => undefined,
    }));
    const outcome = await new Promise<Outcome>((resolve) =>
      solver.solve('hole', readings('r1'), defaultAssumptions, resolve),
    );
    expect(outcome).toMatchObject({ ok: false, problem: 'piece P1: names no run' });
  });
});
