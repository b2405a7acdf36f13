import { expect, it } from 'vitest';
import { surveySchedules } from './survey.ts';

// A file of its own, so that the second half runs beside the first.
it('I1-I10: seeds 10,000 to 19,999 break no invariant', { timeout: 600_000 }, async () => {
  const survey = await surveySchedules(10_000, 10_000);
  expect(survey.violations, 'replay with runSchedule(seed)').toEqual([]);
});
