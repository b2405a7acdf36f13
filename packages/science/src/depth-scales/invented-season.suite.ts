import type { BreakClass, DepthReadings } from '../depth/readings.ts';
import { seeded } from '../random/index.ts';

/** An invented season, plain: short runs, few pieces, errors of a few millimetres. For properties that hold on any. */
export const inventedSeason = (seed: number, count: number): DepthReadings => {
  const random = seeded(seed);
  const to2 = (value: number) => Math.round(value * 100) / 100;
  const to3 = (value: number) => Math.round(value * 1000) / 1000;
  const runs: { id: string; from: number; to: number }[] = [];
  const pieces: { id: string; run: string; length: number; topBreak: BreakClass; loss?: number }[] = [];
  const soundings: { id: string; afterRun: string; depth: number; sd: number }[] = [];
  const cable = 1 + 0.003 * random.normal();
  let hole = 0;
  let core = 0;
  for (let r = 1; r <= count; r++) {
    const id = `${r}`;
    const from = to2(hole * cable - 0.01 * random.uniform() + 0.006 * random.normal());
    hole += 0.7 + 0.25 * random.uniform();
    runs.push({ id, from: Math.max(0, from), to: to2(hole * cable + 0.006 * random.normal()) });
    const whole = hole - 0.03 * random.uniform() - core;
    const number = 1 + Math.floor(3 * random.uniform());
    for (let i = 0; i < number; i++) {
      const draw = random.uniform();
      const gap = draw < 0.1 ? 0.01 + 0.03 * random.uniform() : draw < 0.3 ? 0.005 : 0.001;
      const topBreak = draw < 0.1 ? 'loss' : draw < 0.3 ? 'unsure' : 'fits';
      const length = whole / number - gap;
      core += whole / number;
      pieces.push({
        id: `${id}-${i + 1}`,
        run: id,
        length: to3(length + 0.003 * random.normal()),
        topBreak,
        ...(topBreak === 'loss' ? { loss: to3(gap) } : {}),
      });
    }
    if (r % 15 === 0)
      soundings.push({ id: `s${r}`, afterRun: id, depth: to2(hole + 0.02 * random.normal()), sd: 0.03 });
  }
  return { runs, pieces, soundings };
};
