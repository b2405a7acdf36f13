import { readNumber } from '@firnbook/exchange';
import { CommandError } from './refusal.ts';

/**
 * A number that an option was given, comma or point; undefined where it was not given.
 *
 * @param wanted what to give instead, for the complaint
 * @throws CommandError for text that is no number
 */
export const numberOption = (
  option: string,
  text: string | undefined,
  wanted: string,
): number | undefined => {
  if (text === undefined) return undefined;
  const value = readNumber(text)?.value;
  if (value === undefined) throw new CommandError(`"${text}" is not a number`, option, `Give ${wanted}.`);
  return value;
};
