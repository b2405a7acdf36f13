import type { Constant } from '../constants/constant.ts';
import { halfLives } from '../constants/half-lives.ts';
import { QuantityError } from '../quantity-error.ts';
import { convert } from '../relations/unit.ts';
import type { Years } from '../units.ts';

/** Who evaluated it; not every nuclide by each. */
export const evaluations = ['NUBASE2020', 'DDEP', 'Libby', 'Cambridge'] as const;
export type HalfLifeEvaluation = (typeof evaluations)[number];

export interface HalfLife {
  readonly nuclide: string;
  readonly evaluation: HalfLifeEvaluation;
  /** As published, with its source. */
  readonly published: Constant;
  /** Years of 365.25 days, in which elapsed times count. */
  readonly value: Years;
  readonly sd: Years;
}

const table: Readonly<Record<string, Constant>> = halfLives;

/** `Cs-137` of 137Cs, cs137, 137-Cs; as it was given where it is no nuclide. */
const nuclideOf = (text: string): string => {
  const [, element, number] =
    /^([A-Za-z]{1,2})-?(\d{1,3})$/.exec(text.trim().replace(/^(\d{1,3})-?([A-Za-z]{1,2})$/, '$2-$1')) ?? [];
  return element === undefined
    ? text.trim()
    : `${element[0]!.toUpperCase()}${element.slice(1).toLowerCase()}-${number}`;
};

/**
 * The half-life of a nuclide as somebody evaluated it: see `constants/half-lives.ts` for the numbers and their sources.
 *
 * @param nuclide "Cs-137" or "137Cs"
 * @throws QuantityError for a nuclide that the table has not, or not by this evaluation; says what there is
 */
export const halfLife = (nuclide: string, evaluation: HalfLifeEvaluation = 'NUBASE2020'): HalfLife => {
  const name = nuclideOf(nuclide);
  const published = Object.hasOwn(table, `${name} ${evaluation}`)
    ? table[`${name} ${evaluation}`]!
    : refuse(name, evaluation);
  const inYears = (value: number) => convert(value, published.unit, 'a', 'half-life', true);
  return {
    nuclide: name,
    evaluation,
    published,
    value: inYears(published.value),
    sd: inYears(published.sd ?? 0),
  };
};

const refuse = (name: string, evaluation: string): never => {
  const keys = Object.keys(table).map((key) => key.split(' ') as [string, string]);
  const by = keys.filter(([nuclide]) => nuclide === name).map(([, one]) => one);
  throw by.length > 0
    ? new QuantityError('half-life', `${name} is not there by ${evaluation}`, by.join(', '))
    : new QuantityError(
        'half-life',
        `there is no nuclide "${name}"`,
        [...new Set(keys.map(([nuclide]) => nuclide))].join(', '),
      );
};
