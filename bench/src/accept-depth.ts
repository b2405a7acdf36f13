/**
 * `npm run accept:depth`: are solved depths as good as docs/method/depth-acceptance.md says? 2,000 simulated seasons,
 * judged with and without soundings. `-- --seasons N`, `--seed WORD`, `--json`. Ends with 1 where a goal is missed.
 */
import { parseArgs } from 'node:util';
import { Worker } from 'node:worker_threads';
import { type Goal, goalsOf } from './accept-depth/goals.ts';
import { seedsOf, wordOfCommit } from './accept-depth/seeds.ts';
import { goalTable, remarks, slipTable } from './accept-depth/table.ts';
import { type Tally, tally } from './accept-depth/tally.ts';
import type { SeasonOutcome } from './accept-depth/worker.ts';

const WORKERS = 2;

const { values } = parseArgs({
  options: {
    seasons: { type: 'string', default: '2000' },
    seed: { type: 'string' },
    json: { type: 'boolean', default: false },
  },
});
const count = Number(values.seasons);
if (!Number.isInteger(count) || count < 1) {
  process.stderr.write(`--seasons ${values.seasons}: give a whole number of 1 or more\n`);
  process.exit(2);
}
const { word, source } = values.seed === undefined ? wordOfCommit() : { word: values.seed, source: '--seed' };

/** How far it is, for who waits at a terminal. */
let done = 0;
const tell = (seasons: number): void => {
  if (process.stderr.isTTY) process.stderr.write(`\r${seasons} of ${count} seasons`);
  if (process.stderr.isTTY && seasons === count) process.stderr.write('\r\u001b[K');
};

const judged = (seeds: readonly number[]): Promise<SeasonOutcome[]> =>
  new Promise((resolve, reject) => {
    const outcomes: SeasonOutcome[] = [];
    const worker = new Worker(new URL('./accept-depth/start-worker.mjs', import.meta.url), {
      workerData: seeds,
    });
    worker.on('message', (outcome: SeasonOutcome) => {
      outcomes.push(outcome);
      tell(++done);
    });
    worker.on('error', reject);
    worker.on('exit', () =>
      outcomes.length === seeds.length
        ? resolve(outcomes)
        : reject(new Error(`a worker judged ${outcomes.length} of ${seeds.length} seasons`)),
    );
  });

const start = performance.now();
const seeds = seedsOf(word, count);
const lists = await Promise.all(
  Array.from({ length: WORKERS }, (_, w) => judged(seeds.filter((_, i) => i % WORKERS === w))),
);
const outcomes = lists.flat();
const seconds = (performance.now() - start) / 1000;

const parts: { readonly name: string; readonly goals: readonly Goal[]; readonly tally: Tally }[] = (
  ['sounded', 'unsounded'] as const
).map((which) => {
  const one = tally(outcomes.map((outcome) => outcome[which]));
  return {
    name: which === 'sounded' ? 'with 3 soundings' : 'without soundings',
    goals: goalsOf(one),
    tally: one,
  };
});
const missed = parts.flatMap(({ goals }) => goals).filter(({ isMet }) => !isMet).length;

if (values.json)
  process.stdout.write(`${JSON.stringify({ word, source, seasons: count, seconds, missed, parts })}\n`);
else {
  const out = [`Depth acceptance: ${count} simulated seasons, seeds from ${word} (${source})`];
  for (const part of parts)
    out.push(
      '',
      part.name,
      '',
      goalTable(part.goals),
      '',
      slipTable(part.tally.slips),
      '',
      remarks(part.tally),
    );
  out.push(
    '',
    `${missed === 0 ? 'All goals met' : `${missed} goals missed`}. It took ${seconds.toFixed(0)} s.`,
  );
  process.stdout.write(`${out.join('\n')}\n`);
}
process.exitCode = missed === 0 ? 0 : 1;
