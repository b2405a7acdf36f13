import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { digest, digestOf } from './digest.ts';
import { createLedger } from './ledger.ts';
import { inventedChain, shuffled } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

it('digest is the SHA-256 of the sorted hashes with line feeds, whatever the order of arrival (I3)', () => {
  const chain = inventedChain('d', 9);
  const text = chain
    .map((entry) => `${entry.hash}\n`)
    .sort()
    .join('');
  const expected = createHash('sha256').update(text, 'utf8').digest('hex');
  for (let seed = 0; seed < 10; seed += 1) {
    const ledger = createLedger();
    ledger.add(shuffled(chain, seededRandom(seed)));
    expect(digest(ledger)).toBe(expected);
  }
  expect(digestOf([...chain, ...chain].map((entry) => entry.hash))).toBe(expected);
});

it('digest changes when one entry is missing', () => {
  const chain = inventedChain('d', 3).map((entry) => entry.hash);
  expect(digestOf(chain)).not.toBe(digestOf(chain.slice(1)));
});
