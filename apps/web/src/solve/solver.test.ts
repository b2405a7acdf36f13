import type { HoleView } from '@firnbook/campaign';
import { type DepthReadings, type DepthSolution, defaultAssumptions } from '@firnbook/science/depth';
import { solvedNow } from '@firnbook/science/depth-scales';
import { describe, expect, it } from 'vitest';
import type { OpenBench } from './bench.ts';
import type { Answers, Done, Job, Outcome, Task } from './job.ts';
import { createSolver, type Solver } from './solver.ts';

/** A bench that answers when the test says so. */
function slowBench() {
  const jobs: Record<string, Job[]> = { depths: [], looks: [] };
  const answers: Record<string, (done: Done) => void> = {};
  const open: OpenBench = (name, answer) => {
    answers[name] = answer;
    return { give: (job) => void jobs[name]!.push(job), close: () => undefined };
  };
  const solution = (name: string) => ({ solver: name }) as DepthSolution;
  return {
    open,
    jobs,
    finish: (name: string, thread = 'depths') =>
      answers[thread]!({
        turn: jobs[thread]!.at(-1)!.turn,
        outcome: { ok: true, answer: solution(name) },
      }),
  };
}

const readings = (run: string): DepthReadings => ({
  runs: [{ id: run, from: 1, to: 2 }],
  pieces: [{ id: `${run}-piece`, run, length: 0.9, topBreak: 'fits' }],
  soundings: [],
});

const depthsFrom = (given: DepthReadings) =>
  ({ do: 'depths', asked: JSON.stringify({ readings: given, assumptions: defaultAssumptions }) }) as const;

const depthsOf = (run: string) => depthsFrom(readings(run));

const densityOf = (hole: string) =>
  ({ do: 'density', inputs: { hole, pieces: [], melt: [], site: null } }) as const;

const asked = <Do extends Task['do']>(solver: Solver, task: Extract<Task, { do: Do }>) =>
  new Promise<Outcome<Answers[Do]>>((tell) => solver.ask<Do>({ hole: 'hole', task, tell }));

describe('createSolver', () => {
  it('tells the latest answer only and skips questions that nobody has started on', () => {
    const bench = slowBench();
    const solver = createSolver(bench.open);
    const told: string[] = [];
    const tell = (outcome: Outcome<DepthSolution>) =>
      told.push(outcome.ok ? outcome.answer.solver : outcome.problem);
    for (const run of ['r1', 'r2', 'r3']) solver.ask({ hole: 'hole', task: depthsOf(run), tell });
    bench.finish('of r1');
    bench.finish('of r3');
    expect(bench.jobs.depths!.map(({ task }) => task)).toEqual([depthsOf('r1'), depthsOf('r3')]);
    expect(told).toEqual(['of r3']);
    expect(solver.isBusy()).toBe(false);
  });

  it('solves several holes one after the other, each with its own latest', () => {
    const bench = slowBench();
    const solver = createSolver(bench.open);
    const told: string[] = [];
    solver.ask({ hole: 'a', task: depthsOf('ra'), tell: () => told.push('a') });
    solver.ask({ hole: 'b', task: depthsOf('rb'), tell: () => told.push('b') });
    bench.finish('first');
    expect(solver.isBusy()).toBe(true);
    bench.finish('second');
    expect(told).toEqual(['a', 'b']);
  });

  it('lets no depth wait for a density, and tells each of them', () => {
    const bench = slowBench();
    const solver = createSolver(bench.open);
    const told: string[] = [];
    solver.ask({ hole: 'a', task: densityOf('a'), tell: () => told.push('density') });
    solver.ask({ hole: 'a', task: depthsOf('r1'), tell: () => told.push('depths') });
    expect([bench.jobs.looks!.length, bench.jobs.depths!.length]).toEqual([1, 1]);
    bench.finish('depths');
    bench.finish('density', 'looks');
    expect(told).toEqual(['depths', 'density']);
  });

  it('works here where there is no worker: depths, the verdict after them, movements and density', async () => {
    const solver = createSolver();
    const outcome = await asked(solver, depthsOf('r1'));
    if (!outcome.ok) throw new Error(outcome.problem);
    const solution = outcome.answer;
    expect(solution.pieces.map((piece) => piece.id)).toEqual(['r1-piece']);
    const verdict = await asked(solver, { do: 'verdict', readings: readings('r1'), solution });
    expect(verdict).toMatchObject({ ok: true, answer: { run: 'r1', closing: { advance: 1, core: 0.9 } } });
    const state = solvedNow(readings('r1'), solution);
    const hole = { entries: [], runs: [], zeros: [], soundings: [], others: {} } as unknown as HoleView;
    const moved = await asked(solver, {
      do: 'movements',
      hole,
      before: state,
      after: state,
    });
    expect(moved).toMatchObject({
      ok: true,
      answer: { changes: [], moved: [{ piece: 'r1-piece', top: 0 }] },
    });
    const density = await asked(solver, densityOf('hole'));
    expect(density).toMatchObject({ ok: true, answer: { hole: 'hole', profile: [] } });
  });

  it('answers in words where the readings cannot be solved', async () => {
    const homeless: DepthReadings = { ...readings('r1'), runs: [] };
    const outcome = await asked(createSolver(), depthsFrom(homeless));
    expect(outcome).toMatchObject({ ok: false, problem: expect.stringContaining('r1') });
  });
});
