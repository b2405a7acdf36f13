import { evaluate, type Input, relationNamed } from '@firnbook/science/relations';
import type { Answers } from './job.ts';

/** A relation by its name: it can't travel between threads itself. */
export function relate(name: string, inputs: Readonly<Record<string, Input>>): Answers['relation'] {
  const relation = relationNamed(name);
  if (relation === undefined) throw new Error(`There is no relation "${name}".`);
  const { taken, results } = evaluate(relation, inputs);
  return { taken, results };
}
