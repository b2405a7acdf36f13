import { QuantityError } from '../quantity-error.ts';
import { type Horizon, type HorizonEvent, type HorizonKind, horizons } from './table.ts';

/**
 * Horizons whose deposition falls between two years, both included; from the youngest to the oldest.
 *
 * @param from earlier year CE
 * @param kind all where not given
 * @throws QuantityError for years in the wrong order
 */
export const horizonsBetween = (from: number, to: number, kind?: HorizonKind): readonly Horizon[] => {
  if (!(from <= to))
    throw new QuantityError('horizons', `the years are ${from} to ${to}`, 'the earlier first');
  return horizons.filter(
    (one) =>
      one.deposition.to >= from && one.deposition.from <= to && (kind === undefined || one.kind === kind),
  );
};

/** Letters alone, without accents and case, so that "Eldgja" finds Eldgjá. */
const plain = (text: string): string =>
  text
    .normalize('NFD')
    .toLowerCase()
    .replace(/ð/g, 'd')
    .replace(/[^a-z0-9]/g, '');

/**
 * The horizon of that name; part of a name is enough where only one has it.
 *
 * @throws QuantityError for a name that none or several have; says which there are
 */
export const horizonNamed = (name: string): Horizon => {
  const wanted = plain(name);
  const found =
    horizons.filter((one) => plain(one.name) === wanted).length === 1
      ? horizons.filter((one) => plain(one.name) === wanted)
      : horizons.filter((one) => wanted !== '' && plain(one.name).includes(wanted));
  if (found.length === 1) return found[0]!;
  throw new QuantityError(
    'horizons',
    found.length === 0 ? `there is no "${name}"` : `"${name}" may be ${found.length} of them`,
    (found.length === 0 ? horizons : found).map((one) => one.name).join('; '),
  );
};

/** The event's date as far as it is known: "1986-04-26", "1477-02", "1809". */
export const writtenEvent = ({ year, month, day }: HorizonEvent): string =>
  [String(year).padStart(4, '0'), month, day]
    .filter((part) => part !== null)
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
