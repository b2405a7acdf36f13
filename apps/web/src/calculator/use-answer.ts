import { QuantityError } from '@firnbook/science/quantity-error';
import { evaluate, type Input } from '@firnbook/science/relations';
import { useEffect, useMemo, useState } from 'react';
import { createSolver, type Solver } from '../solve/solver.ts';
import { t } from '../texts/t.ts';
import type { Given } from './fields.ts';
import type { Question, Worked } from './question.ts';

export type Outcome =
  | { readonly state: 'missing' }
  | { readonly state: 'working' }
  | { readonly state: 'worked'; readonly worked: Worked }
  /** Every field alone is within its range, and together they can't be. */
  | { readonly state: 'refused'; readonly problem: string };

type Inputs = Readonly<Record<string, Input>>;

/**
 * What the relation says to what was given, worked out at once or, where that takes long, in another thread.
 *
 * @param isTyping whether more digits may come: half a number is not answered, least of all with a warning
 */
export function useAnswer(
  question: Question,
  given: Given,
  isTyping: boolean,
): { readonly outcome: Outcome; readonly isOld: boolean } {
  const isWhole = given.missing.length === 0 && Object.keys(given.problems).length === 0;
  // The same numbers are the same question, however often the screen is drawn.
  const asked = isWhole ? JSON.stringify(given.inputs) : null;
  const settled = useSettled(asked, isTyping ? pause : 0);
  const here = useMemo((): Outcome => {
    if (settled === null) return { state: 'missing' };
    return question.heavy ? { state: 'working' } : workedOut(question, JSON.parse(settled) as Inputs);
  }, [question, settled]);
  const elsewhere = useElsewhere(question, question.heavy ? settled : null);
  if (asked === null) return { outcome: { state: 'missing' }, isOld: false };
  if (!question.heavy || settled === null) return { outcome: here, isOld: settled !== asked };
  return { outcome: elsewhere?.outcome ?? here, isOld: elsewhere !== null && elsewhere.asked !== asked };
}

/** Milliseconds after a key, when a person is taken to be done with a number. */
const pause = 600;

/** The value once it has not changed for so long; at once where there is nothing to wait for. */
function useSettled<T>(value: T, wait: number): T {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), wait);
    return () => clearTimeout(timer);
  }, [value, wait]);
  return wait === 0 ? value : settled;
}

/** Total: what can't be worked out is said in words. */
export function workedOut({ relation }: Question, inputs: Inputs): Outcome {
  try {
    const { taken, results } = evaluate(relation, inputs);
    return { state: 'worked', worked: { taken, results } };
  } catch (error) {
    return { state: 'refused', problem: problemWords(error) };
  }
}

function problemWords(error: unknown): string {
  if (error instanceof QuantityError)
    return t('calc.refused', { where: error.where, what: error.what, allowed: error.allowed });
  return error instanceof Error ? error.message : String(error);
}

/** The last answer that came, and to which inputs. */
interface Told {
  readonly asked: string;
  readonly outcome: Outcome;
}

/** Told by a thread of its own, which is there as long as the question stands open. */
function useElsewhere(question: Question, asked: string | null): Told | null {
  const [solver, setSolver] = useState<Solver | null>(null);
  const [told, setTold] = useState<Told | null>(null);
  const { heavy, relation } = question;
  useEffect(() => {
    if (!heavy) return;
    const opened = createSolver();
    setSolver(opened);
    return () => opened.close();
  }, [heavy]);
  useEffect(() => {
    if (asked === null || solver === null) return;
    solver.ask({
      hole: relation.name,
      task: { do: 'relation', relation: relation.name, inputs: JSON.parse(asked) as Inputs },
      // Where it was refused, or what works it out could not be fetched: here, with the reason as this place says it.
      tell: (outcome) =>
        setTold({
          asked,
          outcome: outcome.ok
            ? { state: 'worked', worked: outcome.answer }
            : workedOut(question, JSON.parse(asked) as Inputs),
        }),
    });
  }, [asked, solver, relation, question]);
  return told;
}
