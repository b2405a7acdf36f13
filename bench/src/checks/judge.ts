import { section as ice } from './01-ice.ts';
import { section as firn } from './02-firn.ts';
import { section as age } from './03-age.ts';
import { section as horizons } from './04-horizons.ts';
import { section as creep } from './05-creep.ts';
import { section as drill } from './06-drill.ts';
import { section as cold } from './07-cold.ts';
import { section as uncertainty } from './08-uncertainty.ts';
import { section as chem } from './09-chem.ts';
import { section as stats } from './10-stats.ts';
import { section as ident } from './11-ident.ts';
import { section as melt } from './12-melt.ts';
import { section as radar } from './13-radar.ts';
import { differences } from './compare.ts';
import type { Computed, Evaluator, Section } from './evaluator.ts';
import type { Check } from './sheet.ts';
import { limitOf } from './tolerance.ts';

const sections: readonly Section[] = [
  ice,
  firn,
  age,
  horizons,
  creep,
  drill,
  cold,
  uncertainty,
  chem,
  stats,
  ident,
  melt,
  radar,
];

/** What came of one entry. */
export interface Judged {
  readonly id: string;
  readonly section: string;
  readonly expected: unknown;
  readonly computed: Computed | null;
  readonly tolerance: string;
  readonly state: 'pass' | 'fail' | 'not computed';
  /** Differences, or why nothing was computed. */
  readonly because: readonly string[];
}

/** The one evaluator of an entry; undefined where no function of ours computes it. */
const evaluatorOf = (section: Section, id: string): Evaluator | undefined => {
  const found = section.evaluators.filter(({ ids }) => ids.test(id));
  if (found.length > 1) throw new Error(`check ${id}: ${found.length} evaluators claim it`);
  return found[0];
};

/** Evaluates one entry through public functions, from its inputs. */
export const judge = (check: Check): Judged => {
  const section = sections.find((one) => one.section === check.section);
  if (section === undefined) throw new Error(`check ${check.id}: there is no section ${check.section}`);
  const { id, expected, tol: tolerance } = check;
  const base = { id, section: check.section, expected, tolerance };
  const evaluator = evaluatorOf(section, id);
  if (evaluator === undefined) {
    const because = section.not.find(({ ids }) => ids.test(id))?.because ?? 'nobody wrote an evaluator';
    return { ...base, computed: null, state: 'not computed', because: [because] };
  }
  try {
    const computed = evaluator.compute(check.inputs, id);
    const because = differences(expected, computed, limitOf(tolerance, id));
    return { ...base, computed, state: because.length === 0 ? 'pass' : 'fail', because };
  } catch (error) {
    return { ...base, computed: null, state: 'fail', because: [String(error)] };
  }
};
