import { describe, expect, it } from 'vitest';
import { shownNumber, shownSd } from './shown.ts';

describe('numbers as they are shown', () => {
  it.each([
    [589.9413, 2.801, '589.9', '2.8'],
    [0.0012345, 0.00021, '0.00123', '0.00021'],
    [12345.6, 230, '12346', '230'],
    [2.370575e-8, 3.1e-10, '2.371e-8', '3.1e-10'],
    [-40.25, 0.5, '-40.25', '0.50'],
  ])('%d with %d: two digits of the uncertainty', (value, sd, number, spread) => {
    expect(shownNumber(value, sd)).toBe(number);
    expect(shownSd(sd)).toBe(spread);
  });

  it('shows six digits where there is no uncertainty', () => {
    expect(shownNumber(10.41172345, null)).toBe('10.4117');
    expect(shownNumber(0, null)).toBe('0');
    expect(shownNumber(3.5e-25, null)).toBe('3.50000e-25');
  });
});
