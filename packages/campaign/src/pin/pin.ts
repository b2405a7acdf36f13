/** Why digits are no PIN, in a word for the texts of each screen. */
export type PinProblem = 'digits' | 'short' | 'long' | 'common';

const shortest = 4;
const longest = 12;

/**
 * Most chosen of four digits where people chose them freely, beyond what the rules below catch (a study of leaked
 * numbers, 2012; from memory). Dates of birth are not refused: a camp has few hands, and a year is soon forgotten.
 */
const favourites: ReadonlySet<string> = new Set([
  '1004',
  '2000',
  '2001',
  '2580',
  '1122',
  '1998',
  '2468',
  '1357',
]);

/** Null for a PIN that may be chosen. */
export function pinProblem(pin: string): PinProblem | null {
  if (!/^[0-9]*$/.test(pin)) return 'digits';
  if (pin.length < shortest) return 'short';
  if (pin.length > longest) return 'long';
  return favourites.has(pin) || isRepeated(pin) || isRun(pin) ? 'common' : null;
}

/** What can be a PIN at all, chosen lately or before a rule was made. */
export function isPinLike(pin: string): boolean {
  return /^[0-9]{4,12}$/.test(pin);
}

/** "0000", "1212", "123123": one to three signs again and again. */
function isRepeated(pin: string): boolean {
  return [1, 2, 3].some(
    (period) => pin.length >= 2 * period && pin === pin.slice(period) + pin.slice(0, period),
  );
}

/** "1234", "7890", "8765": every digit is the next one, up or down. */
function isRun(pin: string): boolean {
  return [1, 9].some((step) =>
    [...pin].every((digit, at) => at === 0 || Number(digit) === (Number(pin[at - 1]) + step) % 10),
  );
}
