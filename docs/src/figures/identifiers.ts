import type { Chart } from '@firnbook/drawing';
import { containerCheck, letterValue } from '@firnbook/science/identifiers';

const least = 'AAAJ000000';
/** What one more at a place adds to the sum, by 11: found by changing one character of a number. */
const weight = (place: number): number => {
  const other = place < 3 ? 'B' : place === 3 ? 'Z' : '1';
  const from = least.charAt(place);
  const value = (character: string) => (place < 4 ? letterValue(character) : Number(character));
  const changed = least.slice(0, place) + other + least.slice(place + 1);
  const more = containerCheck(changed).sum - containerCheck(least).sum;
  return (more / (value(other) - value(from))) % 11;
};

export const chart: Chart = {
  title: 'Weight of each place of a container’s number, by 11',
  x: { label: 'place', unit: '1', from: 0, to: 10 },
  y: { label: 'weight, remainder by 11', unit: '1', from: 0, to: 11 },
  curves: [],
  points: [
    { label: 'no two are alike', at: Array.from({ length: 10 }, (_, i) => [i + 1, weight(i)] as const) },
  ],
};
