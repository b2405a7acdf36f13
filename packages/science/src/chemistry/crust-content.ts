import { atomicWeights } from '../constants/atomic-weights.ts';
import { crust } from '../constants/crust.ts';
import { mustLie, QuantityError } from '../quantity-error.ts';
import { atomsOf, molarMass } from './formula.ts';

const oxides = ['SiO2', 'Al2O3', 'FeO', 'MnO', 'MgO', 'CaO', 'Na2O', 'TiO2', 'K2O', 'P2O5'] as const;

/** The element that an oxide is of: the first in its formula. */
const elementIn = (oxide: string): { readonly element: string; readonly share: number } => {
  const [first, oxygen] = atomsOf(oxide);
  if (first === undefined || oxygen?.[0] !== 'O')
    throw new QuantityError(`oxide ${oxide}`, 'it is not an element with oxygen', 'an oxide such as Al2O3');
  const [element, count] = first;
  return { element, share: (count * atomicWeights[element].value) / molarMass(oxide) };
};

/**
 * Content of the element of an oxide that is given in percent of the mass: mg/kg = 10^4 percent n A_r/M.
 *
 * Source: stoichiometry, with atomic weights of `constants/atomic-weights.ts`.
 *
 * @param percent 0 to 100
 * @throws QuantityError outside, and for what is no oxide
 */
export const elementOfOxide = (oxide: string, percent: number): number => {
  mustLie(`oxide ${oxide}`, 'share of the mass', percent, 0, 100, '%');
  return 1e4 * percent * elementIn(oxide).share;
};

const contents: ReadonlyMap<string, number> = new Map([
  ...oxides.map((oxide): [string, number] => [
    elementIn(oxide).element,
    elementOfOxide(oxide, crust[oxide].value),
  ]),
  ...Object.entries(crust).flatMap(([name, { value, unit }]): [string, number][] =>
    unit === 'mg/kg' ? [[name, value]] : [],
  ),
]);

/** Elements of the upper continental crust that have a content in our table. */
export const crustElements: readonly string[] = [...contents.keys()];

/**
 * Content of an element in the upper continental crust, mg/kg.
 *
 * Source: R. L. Rudnick, S. Gao 2003, Treatise on Geochemistry 3, 1-64, doi:10.1016/B0-08-043751-6/03016-4; oxides
 * turned into elements, all iron as FeO. No error was published with the table as we read it.
 *
 * @throws QuantityError for an element that is not in it
 */
export const crustContent = (element: string): number => {
  const content = contents.get(element);
  if (content !== undefined) return content;
  throw new QuantityError(
    'upper continental crust',
    `${element} is not in the table`,
    crustElements.join(' '),
  );
};

/** Ratio of two elements in the upper continental crust, g/g. */
export const crustRatio = (element: string, to = 'Al'): number => crustContent(element) / crustContent(to);
