import { describe, expect, it } from 'vitest';
import { createLedger } from './ledger.ts';
import { compareEntries } from './order.ts';
import { inventedChain, inventedEntry, shuffled } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

describe('add', () => {
  it('J2: adding twice changes nothing and returns only what was new, in total order', () => {
    const ledger = createLedger();
    const chain = inventedChain('d', 3);
    expect(ledger.add([chain[1]!, chain[0]!])).toEqual([chain[0], chain[1]]);
    expect(ledger.add(chain)).toEqual([chain[2]]);
    expect(ledger.add(chain)).toEqual([]);
    expect(ledger.size).toBe(3);
  });

  it('J1, J2: whatever the order of arrival, all indices come out the same', () => {
    const trunk = inventedChain('d', 4);
    const branch = inventedChain('d', 3, trunk[1], { kind: 'other.kind' });
    const correction = inventedEntry({ device: 'e' }, { id: 'correction', corrects: ['d-4-', 'gone'] });
    const all = [...trunk, ...branch, correction, ...inventedChain('f', 2)];
    const seen = new Set<string>();
    for (let seed = 0; seed < 100; seed += 1) {
      const ledger = createLedger();
      for (const entry of shuffled(all, seededRandom(seed))) ledger.add([entry]);
      expect(ledger.entries()).toEqual([...all].sort(compareEntries));
      expect(ledger.orphans()).toEqual([]);
      seen.add(
        JSON.stringify([
          ledger
            .chain('d')!
            .heads.map((head) => head.hash)
            .sort(),
          ledger.chain('d')!.levels.map((level) => level.map((entry) => entry.hash).sort()),
          ledger.forks(),
          ledger.waiting().map((entry) => entry.hash),
          ledger.latest,
        ]),
      );
    }
    expect(seen.size).toBe(1);
    expect(JSON.parse([...seen][0]!)[2]).toEqual([
      { device: 'd', sequence: 3, hashes: [trunk[2]!.hash, branch[0]!.hash].sort() },
    ]);
  });

  it('J5: a correction without its target is kept and waits until the target comes', () => {
    const ledger = createLedger();
    const target = inventedEntry({ device: 'e' }, { id: 'target' });
    const correction = inventedEntry({ device: 'd' }, { id: 'correction', corrects: ['target'] });
    ledger.add([correction]);
    expect(ledger.has(correction.hash)).toBe(true);
    expect(ledger.waiting()).toEqual([correction]);
    ledger.add([target]);
    expect(ledger.waiting()).toEqual([]);
  });

  it('I2: should two contents claim one id, every ledger answers with the same one', () => {
    const two = [inventedEntry({ device: 'a' }, { id: 'x' }), inventedEntry({ device: 'b' }, { id: 'x' })];
    const answers = [two, [...two].reverse()].map((list) => {
      const ledger = createLedger();
      ledger.add(list);
      return ledger.byId('x')!.hash;
    });
    expect(answers).toEqual([two[0]!.hash, two[0]!.hash]);
  });
});

describe('chain', () => {
  it('ends where the past has a hole; what follows is an orphan until the hole is filled', () => {
    const ledger = createLedger();
    const [one, two, three, four] = inventedChain('d', 4);
    ledger.add([one!, three!, four!]);
    expect(ledger.chain('d')!.heads).toEqual([one]);
    expect(ledger.orphans()).toEqual([three, four]);
    expect(ledger.tip('d')).toBe(four);
    ledger.add([two!]);
    expect(ledger.chain('d')!.heads).toEqual([four]);
    expect(ledger.orphans()).toEqual([]);
  });

  it('of a device that nobody knows is undefined, also of "__proto__"', () => {
    expect(createLedger().chain('__proto__')).toBeUndefined();
    const ledger = createLedger();
    ledger.add(inventedChain('__proto__', 2));
    expect(ledger.chain('__proto__')!.levels).toHaveLength(2);
  });
});
