import { describe, expect, it } from 'vitest';
import { isPinLike, pinProblem } from './pin.ts';

describe('A PIN', () => {
  // The twenty most used of four digits, a study of 3.4 million leaked numbers, 2012 (from memory).
  const most =
    '1234 1111 0000 1212 7777 1004 2000 4444 2222 6969 9999 3333 5555 6666 1122 1313 8888 4321 2001 1010';

  it.each(most.split(' '))('%s is among those that are tried first, and refused', (pin) => {
    expect(pinProblem(pin)).toBe('common');
  });

  it.each(['0123', '7890', '3210', '0987', '12345678', '987654321098', '121212', '123123', '000000000000'])(
    '%s is a run or a repetition, and refused',
    (pin) => {
      expect(pinProblem(pin)).toBe('common');
    },
  );

  it.each(['2718', '1402', '1987', '314159', '1235', '12346', '112233445566', '480912'])(
    '%s may be chosen',
    (pin) => {
      expect(pinProblem(pin)).toBeNull();
      expect(isPinLike(pin)).toBe(true);
    },
  );

  it.each([
    ['', 'short'],
    ['271', 'short'],
    ['2718281828459', 'long'],
    ['27 18', 'digits'],
    ['27a8', 'digits'],
    ['٢٧١٨', 'digits'],
    ['-2718', 'digits'],
    ['2718\n', 'digits'],
  ])('"%s" is none: %s', (pin, problem) => {
    expect(pinProblem(pin)).toBe(problem);
    expect(isPinLike(pin)).toBe(false);
  });
});
