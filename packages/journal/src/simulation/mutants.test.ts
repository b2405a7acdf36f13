import { describe, expect, it } from 'vitest';
import { HONEST, MUTANTS } from './mutants.ts';
import { findViolation } from './survey.ts';

const SCHEDULES = 10_000;

describe('findViolation', () => {
  it.each(MUTANTS)('notices a protocol that $name', { timeout: 600_000 }, async (mutant) => {
    expect(await findViolation(mutant, SCHEDULES), 'this mutant lives').not.toBeNull();
  });

  it('control: finds nothing wrong with the honest protocol', async () => {
    expect(await findViolation(HONEST, 200)).toBeNull();
  });

  it('has at least 15 mutants, all with different names', () => {
    expect(new Set(MUTANTS.map((mutant) => mutant.name)).size).toBe(MUTANTS.length);
    expect(MUTANTS.length).toBeGreaterThanOrEqual(15);
  });
});
