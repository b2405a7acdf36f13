import { describe, expect, it } from 'vitest';
import { coverageOf, haveOf } from './coverage.ts';
import type { Entry } from './entry.ts';
import { createLedger, type Ledger } from './ledger.ts';
import { inventedChain } from './simulation/invented.ts';

function ledgerOf(...entries: (readonly Entry[])[]): Ledger {
  const ledger = createLedger();
  ledger.add(entries.flat());
  return ledger;
}

const held = (ledger: Ledger, peer: Ledger) => {
  const coverage = coverageOf(ledger, haveOf(peer));
  return ledger
    .entries()
    .filter((entry) => coverage.holds(entry))
    .map((entry) => entry.header.id);
};

const trunk = inventedChain('d', 6);

describe('coverageOf', () => {
  it('counts everything up to a known head, and nothing after it', () => {
    expect(held(ledgerOf(trunk), ledgerOf(trunk.slice(0, 4)))).toEqual(['d-1-', 'd-2-', 'd-3-', 'd-4-']);
    expect(held(ledgerOf(trunk), ledgerOf())).toEqual([]);
  });

  it('an unknown head above all of ours: the peer is ahead, nothing is certain yet', () => {
    const coverage = coverageOf(ledgerOf(trunk.slice(0, 4)), haveOf(ledgerOf(trunk)));
    expect(coverage.isAhead('d')).toBe(true);
    expect({ ...coverage.unsure }).toEqual({ d: 0 });
  });

  it('asked again with what we are unsure of, the peer lists steps that settle it', () => {
    const mine = ledgerOf(trunk.slice(0, 5));
    const peer = ledgerOf(trunk);
    let unsure = coverageOf(mine, haveOf(peer)).unsure;
    for (let round = 0; round < 3; round += 1) unsure = coverageOf(mine, haveOf(peer, unsure)).unsure;
    const coverage = coverageOf(mine, haveOf(peer, { d: 4 }));
    expect(coverage.holds(trunk[4]!)).toBe(true);
    expect({ ...coverage.unsure }).toEqual({});
  });

  it('an unknown head at or below ours: a fork, both sides offer', () => {
    const branch = inventedChain('d', 2, trunk[2], { kind: 'other.kind' });
    const coverage = coverageOf(ledgerOf(trunk), haveOf(ledgerOf(trunk.slice(0, 3), branch)));
    expect(coverage.isAhead('d')).toBe(false);
    expect({ ...coverage.unsure }).toEqual({ d: 0 });
  });

  it('of two branches that are both held, each is covered by its own head', () => {
    const branch = inventedChain('d', 2, trunk[2], { kind: 'other.kind' });
    const both = ledgerOf(trunk, branch);
    expect(held(both, ledgerOf(trunk))).toEqual(trunk.map((entry) => entry.header.id));
    expect(held(both, ledgerOf(trunk.slice(0, 3), branch)).sort()).toEqual(
      [...trunk.slice(0, 3), ...branch].map((entry) => entry.header.id).sort(),
    );
    expect(held(both, both)).toHaveLength(8);
  });
});

describe('haveOf', () => {
  it('names one head per branch, and on request the steps n+1, n+2, n+4 ...', () => {
    const ledger = ledgerOf(trunk);
    const listed = (unsure?: { d: number }) =>
      haveOf(ledger, unsure)
        .d!.map((head) => head.sequence)
        .sort();
    expect(listed()).toEqual([6]);
    expect(listed({ d: 0 })).toEqual([1, 2, 4, 6]);
    expect(listed({ d: 3 })).toEqual([4, 5, 6]);
    expect(listed({ d: 9 })).toEqual([6]);
  });

  it('two branches of a thousand entries find where they part in about ten exchanges', () => {
    const long = inventedChain('d', 700);
    const mine = ledgerOf(long);
    const peer = ledgerOf(long.slice(0, 333), inventedChain('d', 200, long[332], { kind: 'other.kind' }));
    let rounds = 0;
    let unsure = {};
    for (; rounds < 40; rounds += 1) {
      const coverage = coverageOf(mine, haveOf(peer, unsure));
      if (coverage.holds(long[332]!)) break;
      unsure = coverage.unsure;
    }
    expect(rounds).toBeLessThanOrEqual(12);
  });
});
