import { QuantityError } from '../quantity-error.ts';
import type { Distribution } from './distributions.ts';
import type { InputQuantity } from './propagate.ts';

/** One quantity of a list in words: what the law of propagation takes, and what is drawn from. */
export interface NamedQuantity {
  readonly name: string;
  readonly first: InputQuantity;
  readonly drawn: Distribution;
}

const where = 'list of quantities';
const number = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?`;
const known = new RegExp(String.raw`^([A-Za-z_]\w*)\s*=\s*(${number})$`);
const spread = new RegExp(
  String.raw`^([A-Za-z_]\w*)\s*=\s*(${number})\s*(?:±|\+-|\+/-)\s*(${number})(?:\s+dof\s+(${number}))?$`,
);
const between = new RegExp(String.raw`^([A-Za-z_]\w*)\s*=\s*(${number})\s*\.\.\s*(${number})$`);

const quantityOf = (text: string): NamedQuantity => {
  const [, name = '', plain] = known.exec(text) ?? [];
  if (plain !== undefined) {
    const value = Number(plain);
    return { name, first: { value, sd: 0 }, drawn: { kind: 'normal', mean: value, sd: 0 } };
  }
  const [, spreadName = '', value, sd, degrees] = spread.exec(text) ?? [];
  if (sd !== undefined) {
    const [mean, scale] = [Number(value), Number(sd)];
    if (degrees === undefined)
      return {
        name: spreadName,
        first: { value: mean, sd: scale },
        drawn: { kind: 'normal', mean, sd: scale },
      };
    return {
      name: spreadName,
      first: { value: mean, sd: scale, degrees: Number(degrees) },
      drawn: { kind: 'student', mean, scale, degrees: Number(degrees) },
    };
  }
  const [, betweenName = '', from, to] = between.exec(text) ?? [];
  if (to === undefined)
    throw new QuantityError(
      where,
      `"${text}" can't be read`,
      'a = 1.5, a = 1.5 ± 0.2, a = 1.5 ± 0.2 dof 4, a = 1.3..1.7',
    );
  const [low, high] = [Number(from), Number(to)];
  if (!(low <= high))
    throw new QuantityError(where, `"${text}" runs from ${low} to ${high}`, 'the lower limit first');
  return {
    name: betweenName,
    // JCGM 100:2008, 4.3.7: half the width over the root of 3
    first: { value: (low + high) / 2, sd: (high - low) / 2 / Math.sqrt(3) },
    drawn: { kind: 'rectangular', low, high },
  };
};

/**
 * Reads quantities with what is known of each: `m = 0.512 ± 0.002; d = 0.098 ± 0.001 dof 4; l = 0.54..0.56; k = 4`. A spread
 * is a standard uncertainty (with `dof`: from so many degrees of freedom), two dots are limits with everything between them
 * as likely, a bare number is known.
 *
 * @param names that the formula needs, in its order
 * @throws QuantityError for what can't be read, a name twice, missing, or too many
 */
export const readQuantities = (text: string, names: readonly string[]): readonly NamedQuantity[] => {
  const all = text
    .split(/[;,\n]/)
    .map((part) => part.trim())
    .filter((part) => part !== '')
    .map(quantityOf);
  const twice = all.find(({ name }, i) => all.some((other, j) => j < i && other.name === name));
  if (twice !== undefined) throw new QuantityError(where, `${twice.name} stands twice`, 'each once');
  const extra = all.find(({ name }) => !names.includes(name));
  if (extra !== undefined)
    throw new QuantityError(where, `the formula has no ${extra.name}`, names.join(', '));
  return names.map((name) => {
    const found = all.find((one) => one.name === name);
    if (found === undefined)
      throw new QuantityError(where, `${name} of the formula is missing`, `${name} = …`);
    return found;
  });
};
