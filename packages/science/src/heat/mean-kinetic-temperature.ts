import { mustLie, QuantityError } from '../quantity-error.ts';
import type { Kelvin } from '../units.ts';

/** J/mol over J/mol/K: 83.144 kJ/mol over 8.3144 J/mol/K, as pharmacopoeias have it (from memory). */
export const usualActivation: Kelvin = 10_000;

/**
 * Mean kinetic temperature: the steady one at which a reaction with that activation energy would go as far.
 *
 * T_K = (E/R)/(-ln(sum w_i exp(-E/(R T_i))/sum w_i)), w_i the lengths of the intervals.
 *
 * An extra: it was made for goods above freezing, and USP <1079.2> says that it is not for frozen ones (as quoted). For
 * ice, time above a limit, peak and degree-hours say what matters.
 *
 * Source: J. D. Haynes 1971, J. Pharm. Sci. 60, 927-929 (from memory); ICH Q1A(R2) (from memory).
 *
 * @param temperatures K, at least one
 * @param durations of each, in any unit; equal without
 * @param activation E/R, K
 * @throws QuantityError for a temperature outside 100 to 400 K, durations that are not as many, below 0 or all 0
 */
export const meanKineticTemperature = (
  temperatures: readonly Kelvin[],
  durations: readonly number[] | null = null,
  activation: Kelvin = usualActivation,
): Kelvin => {
  const where = 'mean kinetic temperature';
  if (temperatures.length === 0) throw new QuantityError(where, 'there is no temperature', '1 or more');
  if (durations !== null && durations.length !== temperatures.length)
    throw new QuantityError(
      where,
      `there are ${durations.length} durations`,
      `as many as temperatures, ${temperatures.length}`,
    );
  mustLie(where, 'activation energy over R', activation, 10, 1e6, 'K');
  for (const temperature of temperatures) mustLie(where, 'temperature', temperature, 100, 400, 'K');
  for (const duration of durations ?? []) mustLie(where, 'duration', duration, 0, Number.MAX_VALUE, '');
  // relative to the warmest, so that exponentials of cold ice do not vanish
  const warmest = temperatures.reduce((a, b) => Math.max(a, b));
  let sum = 0;
  let whole = 0;
  temperatures.forEach((temperature, i) => {
    const weight = durations === null ? 1 : durations[i];
    whole += weight;
    sum += weight * Math.exp(activation / warmest - activation / temperature);
  });
  if (!(whole > 0)) throw new QuantityError(where, 'all durations are 0', 'one above 0');
  return activation / (activation / warmest - Math.log(sum / whole));
};
