import { solveDepths } from '@firnbook/science/depth';
import type { Answers, DepthsAsked, Done, Job, Task } from './job.ts';

/** Total: a job that cannot be done is answered in words. */
export async function runJob({ turn, task }: Job): Promise<Done> {
  try {
    return { turn, outcome: { ok: true, answer: await runTask(task) } };
  } catch (error) {
    const problem = error instanceof Error ? error.message : String(error);
    return { turn, outcome: { ok: false, problem } };
  }
}

async function runTask(task: Task): Promise<Answers[Task['do']]> {
  if (task.do === 'depths') {
    const { readings, assumptions } = JSON.parse(task.asked) as DepthsAsked;
    return solveDepths(readings, assumptions);
  }
  if (task.do === 'relation') return (await import('./relate.ts')).relate(task.relation, task.inputs);
  const looks = await import('./looks.ts');
  switch (task.do) {
    case 'verdict':
      return looks.verdict(task.readings, task.solution);
    case 'density':
      return looks.densityView(task.inputs);
    case 'movements':
      return looks.diff(task.before, task.after, looks.changeOrder(task.hole));
  }
}
