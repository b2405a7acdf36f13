import { relationNamed } from './catalogue.ts';
import { type Evaluation, evaluate } from './evaluate.ts';
import { parseInput } from './input.ts';

/** Results of the relation of that name for quantities as a person writes them. */
export const called = (name: string, written: Readonly<Record<string, string>>): Evaluation['results'] => {
  const relation = relationNamed(name);
  if (relation === undefined) throw new Error(`there is no relation ${name}`);
  const inputs = Object.entries(written).map(([key, text]) => [
    key,
    // what it doesn't take is refused by evaluate
    parseInput(relation.takes[key] ?? { kind: 'text', symbol: '', what: key, example: '' }, text),
  ]);
  return evaluate(relation, Object.fromEntries(inputs)).results;
};
