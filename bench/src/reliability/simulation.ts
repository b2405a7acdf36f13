/**
 * S1 to S4: the real sync core in the simulator, and each seeded mistake of the protocol, which it has to notice.
 */
import { FAULTS, findViolation, MUTANTS, surveySchedules } from '@firnbook/journal/simulation';

export interface Simulated {
  readonly schedules: number;
  readonly violations: number;
  /** Of processor time of one core. */
  readonly perSecond: number;
  /** S3: kinds of faults, and the share of schedules that met the rarest. */
  readonly faults: number;
  readonly rarest: number;
  readonly rarestFault: string;
  /** S4: exchanges that the slowest tablet needed in any healing. */
  readonly exchanges: number;
}

export async function simulate(first: number, schedules: number): Promise<Simulated> {
  const spent = process.cpuUsage();
  const { violations, met, exchanges } = await surveySchedules(first, schedules);
  const { user, system } = process.cpuUsage(spent);
  const shares = FAULTS.map((fault) => [fault, met[fault] ?? 0] as const);
  const [rarestFault, rarest] = shares.reduce((a, b) => (b[1] < a[1] ? b : a));
  return {
    ...{ schedules, violations: violations.length, exchanges, rarest, rarestFault },
    perSecond: Math.round(schedules / ((user + system) / 1e6)),
    faults: FAULTS.length,
  };
}

export interface Mutated {
  readonly mutants: number;
  readonly killed: number;
  /** Schedules that the one which hid best was not noticed in. */
  readonly schedules: number;
  readonly hidBest: string;
  /** Names of those that live. */
  readonly alive: string;
}

/** S2. */
export async function killMutants(most: number): Promise<Mutated> {
  const alive: string[] = [];
  const total = { mutants: MUTANTS.length, killed: 0, schedules: 0, hidBest: '' };
  for (const mutant of MUTANTS) {
    const found = await findViolation(mutant, most);
    if (found === null) {
      alive.push(mutant.name);
      continue;
    }
    total.killed += 1;
    if (found.seed < total.schedules) continue;
    total.schedules = found.seed;
    total.hidBest = mutant.name;
  }
  return { ...total, alive: alive.join('; ') || 'none' };
}
