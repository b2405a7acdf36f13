import { describe, expect, it } from 'vitest';
import { FAULTS } from './faults.ts';
import { HEALING_LIMIT, runSchedule } from './schedule.ts';
import { surveySchedules } from './survey.ts';

describe('surveySchedules', () => {
  it('I1-I10: seeds 0 to 9,999 break no invariant, meet every fault, and come to rest', {
    timeout: 600_000,
  }, async () => {
    const survey = await surveySchedules(0, 10_000);
    expect(survey.violations, 'replay with runSchedule(seed)').toEqual([]);
    for (const fault of FAULTS) expect(survey.met[fault] ?? 0, fault).toBeGreaterThanOrEqual(0.05);
    expect(survey.exchanges).toBeLessThanOrEqual(HEALING_LIMIT);
  });
});

describe('runSchedule', () => {
  it('a seed replays the same history to the same bytes', async () => {
    for (let seed = 0; seed < 40; seed += 1) expect(await runSchedule(seed)).toEqual(await runSchedule(seed));
  });

  it('other seeds give other histories', async () => {
    const digests = new Set<string>();
    for (let seed = 0; seed < 40; seed += 1) digests.add((await runSchedule(seed)).digest);
    expect(digests.size).toBe(40);
  });
});
