/**
 * S1: simulated sync schedules per second on one core, and what they found. For the long run of a night:
 * `node --import tsx --conditions=source bench/src/s1-simulation.ts 0 1000000` (first seed, count).
 */
import { surveySchedules } from '@firnbook/journal/simulation';

const first = Number(process.argv[2] ?? 0);
const count = Number(process.argv[3] ?? 3000);
const start = performance.now();
const survey = await surveySchedules(first, count);
const seconds = (performance.now() - start) / 1000;
const result = {
  id: 'S1',
  what: `simulated schedules from seed ${first} on`,
  schedules: count,
  per_second: Math.round(count / seconds),
  target_per_second: 500,
  violations: survey.violations.map(({ seed, violation }) => ({ seed, ...violation })),
  exchanges: survey.exchanges,
  met: survey.met,
};
process.stdout.write(`${JSON.stringify(result)}\n`);
if (survey.violations.length > 0) process.exitCode = 1;
