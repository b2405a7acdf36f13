import { atomicWeights } from '../constants/atomic-weights.ts';
import { QuantityError } from '../quantity-error.ts';
import type { GramsPerMole } from '../units.ts';

type Element = keyof typeof atomicWeights;
const isElement = (symbol: string): symbol is Element => Object.hasOwn(atomicWeights, symbol);

/**
 * Atoms of a formula such as `CH3SO3` or `B(OH)4`, by element.
 *
 * @throws QuantityError for what is no formula or has an element without an atomic weight in our table
 */
export const atomsOf = (formula: string): ReadonlyMap<Element, number> => {
  const where = `formula ${formula}`;
  const tokens = formula.match(/[A-Z][a-z]?|\(|\)|[1-9]\d*|./gs) ?? [];
  const counts: Map<Element, number>[] = [new Map()];
  const add = (to: Map<Element, number>, part: ReadonlyMap<Element, number>, times: number): void => {
    for (const [element, count] of part) to.set(element, (to.get(element) ?? 0) + times * count);
  };
  for (let i = 0; i < tokens.length; i += 1) {
    const token = tokens[i] ?? '';
    const counted = /^\d+$/.test(tokens[i + 1] ?? '');
    const times = counted ? Number(tokens[i + 1]) : 1;
    if (token === '(') {
      counts.push(new Map());
      continue;
    }
    const closed = token === ')' ? counts.pop() : isElement(token) ? new Map([[token, 1]]) : undefined;
    const into = counts.at(-1);
    if (closed === undefined || closed.size === 0 || into === undefined)
      throw new QuantityError(where, `${token} is not understood`, `${Object.keys(atomicWeights).join(' ')}`);
    add(into, closed, times);
    if (counted) i += 1;
  }
  const [atoms] = counts;
  if (counts.length !== 1 || atoms === undefined || atoms.size === 0)
    throw new QuantityError(where, 'it is empty or a bracket is open', 'a formula such as B(OH)4');
  return atoms;
};

/**
 * Molar mass of a formula: the sum of its atoms' weights. Electrons that an ion lacks or has in excess (0.0005 g/mol
 * each) are left out, as in the tables of the trade.
 *
 * Source: atomic weights of `constants/atomic-weights.ts`. Their errors (a few 1e-5 at most, lead 5e-4) are small beside
 * those of any analysis and are not carried.
 *
 * @throws QuantityError as `atomsOf`
 */
export const molarMass = (formula: string): GramsPerMole => {
  let mass = 0;
  for (const [element, count] of atomsOf(formula)) mass += count * atomicWeights[element].value;
  return mass;
};
