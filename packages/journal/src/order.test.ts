import { expect, it } from 'vitest';
import { compareEntries, inOrder, placeOf } from './order.ts';
import { inventedEntry, shuffled } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

const STAMPS = ['000000000000009-000000', '000000000000010-000000', '000000000000010-000001'] as const;

it('compareEntries goes by stamp, then device, then sequence, then hash', () => {
  const earlier = inventedEntry({ stamp: STAMPS[0], device: 'z', sequence: 9, previous: 'a'.repeat(64) });
  const byDevice = inventedEntry({ stamp: STAMPS[1], device: 'a', sequence: 3, previous: 'b'.repeat(64) });
  const bySequence = inventedEntry({ stamp: STAMPS[1], device: 'b', sequence: 10, previous: 'b'.repeat(64) });
  const two = [{ id: 'x' }, { id: 'y' }].map((draft) =>
    inventedEntry({ stamp: STAMPS[1], device: 'b', sequence: 11, previous: 'b'.repeat(64) }, draft),
  );
  const byHash = two.sort((a, b) => (a.hash < b.hash ? -1 : 1));
  const last = inventedEntry({ stamp: STAMPS[2], device: 'a' });
  const expected = [earlier, byDevice, bySequence, ...byHash, last];
  for (let seed = 0; seed < 50; seed += 1) {
    expect(shuffled(expected, seededRandom(seed)).sort(compareEntries)).toEqual(expected);
  }
});

it('placeOf counts the entries before', () => {
  const sorted = STAMPS.map((stamp) => inventedEntry({ stamp }));
  expect(sorted.map((entry) => placeOf(sorted, entry))).toEqual([0, 1, 2]);
  expect(placeOf(sorted, inventedEntry({ stamp: '000000000000010-000000', device: 'e' }))).toBe(2);
  expect(placeOf([], sorted[0]!)).toBe(0);
});

it('inOrder gives a list in order back as it is, and sorts a copy of any other', () => {
  const sorted = STAMPS.map((stamp) => inventedEntry({ stamp }));
  expect(inOrder(sorted)).toBe(sorted);
  const turned = [...sorted].reverse();
  expect(inOrder(turned)).toEqual(sorted);
  expect(turned[0]).toBe(sorted[2]);
});
