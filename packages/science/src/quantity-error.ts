/** A number that a relation cannot take: what it is, where it came from, what is allowed. */
export class QuantityError extends Error {
  readonly what: string;
  readonly where: string;
  readonly allowed: string;

  /**
   * @param where the relation or the reading: "Herron & Langway 1980", "piece 12-1, length"
   * @param what what is wrong: "accumulation is -0.2 m w.e./a"
   * @param allowed what would be taken: "0.001 to 10 m w.e./a"
   */
  constructor(where: string, what: string, allowed: string) {
    super(`${where}: ${what}; allowed: ${allowed}`);
    this.name = 'QuantityError';
    this.where = where;
    this.what = what;
    this.allowed = allowed;
  }
}

/** @throws QuantityError unless low <= value <= high */
export const mustLie = (
  where: string,
  name: string,
  value: number,
  low: number,
  high: number,
  unit: string,
): void => {
  if (value >= low && value <= high) return;
  const units = unit === '' ? '' : ` ${unit}`;
  throw new QuantityError(
    where,
    `${name} is ${value}${units}`,
    high === Number.POSITIVE_INFINITY ? `${low}${units} or more` : `${low} to ${high}${units}`,
  );
};
