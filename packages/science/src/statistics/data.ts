import { mustLie, QuantityError } from '../quantity-error.ts';

/** @throws QuantityError unless all are finite */
export const mustBeFinite = (relation: string, name: string, values: ArrayLike<number>): void => {
  for (let i = 0; i < values.length; i++)
    if (!Number.isFinite(values[i]))
      throw new QuantityError(relation, `${name} ${i + 1} is ${values[i]}`, 'finite numbers');
};

/** @throws QuantityError unless there is one positive deviation for each of the data */
export const weightsOf = (
  relation: string,
  sd: readonly number[] | undefined,
  data: number,
): Float64Array => {
  if (sd === undefined) return new Float64Array(data).fill(1);
  if (sd.length !== data)
    throw new QuantityError(relation, `${sd.length} standard deviations for ${data} data`, `${data}`);
  sd.forEach((value, i) => {
    mustLie(relation, `standard deviation ${i + 1}`, value, Number.MIN_VALUE, Number.MAX_VALUE, '');
  });
  return Float64Array.from(sd, (value) => 1 / value);
};
