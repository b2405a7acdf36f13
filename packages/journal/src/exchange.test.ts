import { describe, expect, it } from 'vitest';
import { coverageOf, haveOf } from './coverage.ts';
import type { Entry } from './entry.ts';
import { accept, admit, LIMIT, offer } from './exchange.ts';
import { createLedger, type Ledger } from './ledger.ts';
import { open, withhold } from './seal.ts';
import { inventedChain, inventedEntry } from './simulation/invented.ts';

function ledgerOf(...entries: (readonly Entry[])[]): Ledger {
  const ledger = createLedger();
  ledger.add(entries.flat());
  return ledger;
}

function ids(entries: readonly Entry[]): string[] {
  return entries.map((entry) => entry.header.id);
}

function offered(mine: Ledger, peer: Ledger, limit = LIMIT) {
  return offer(mine, coverageOf(mine, haveOf(peer)), limit);
}

const rules = { open, admit };

describe('offer', () => {
  it('brings everything held that the peer has not, own and others, in total order', () => {
    const d = inventedChain('d', 3);
    const e = inventedChain('e', 2);
    const { entries, more } = offered(ledgerOf(d, e), ledgerOf(d.slice(0, 1)));
    expect(ids(entries)).toEqual(['e-1-', 'd-2-', 'e-2-', 'd-3-']);
    expect(more).toBe(false);
  });

  it('is cut to the limit, in entries and in characters, and at least one entry goes', () => {
    const mine = ledgerOf(inventedChain('d', 5));
    expect(offered(mine, ledgerOf(), { entries: 2, characters: 1e6 })).toMatchObject({ more: true });
    expect(ids(offered(mine, ledgerOf(), { entries: 2, characters: 1e6 }).entries)).toEqual(['d-1-', 'd-2-']);
    expect(ids(offered(mine, ledgerOf(), { entries: 9, characters: 1 }).entries)).toEqual(['d-1-']);
  });

  it('I4: a target goes before its correction, and a predecessor before its follower, whatever their stamps say', () => {
    const late = inventedEntry({ device: 'e', stamp: '000000000000009-000000' }, { id: 'target' });
    const first = inventedEntry({ device: 'd', stamp: '000000000000008-000000' }, { id: 'first' });
    const correction = inventedEntry(
      { device: 'd', sequence: 2, previous: first.hash, stamp: '000000000000001-000000' },
      { id: 'correction', corrects: ['target'] },
    );
    const { entries } = offered(ledgerOf([late, first, correction]), ledgerOf());
    expect(ids(entries).indexOf('correction')).toBe(2);
    const cut = offered(ledgerOf([late, first, correction]), ledgerOf(), { entries: 2, characters: 1e6 });
    expect(ids(cut.entries)).not.toContain('correction');
  });

  it('I4: where the peer seems ahead on the target, the correction waits', () => {
    const e = inventedChain('e', 3);
    const correction = inventedEntry({ device: 'd' }, { id: 'correction', corrects: ['e-1-'] });
    const ahead = offered(ledgerOf(e.slice(0, 1), [correction]), ledgerOf(e));
    expect(ids(ahead.entries)).toEqual([]);
    const again = offer(
      ledgerOf(e.slice(0, 1), [correction]),
      coverageOf(ledgerOf(e.slice(0, 1), [correction]), haveOf(ledgerOf(e), { e: 0 })),
    );
    expect(ids(again.entries)).toEqual(['correction']);
  });

  it('a ring of corrections, made up on purpose, does not hang it', () => {
    const one = inventedEntry({ device: 'd' }, { id: 'one', corrects: ['two'] });
    const two = inventedEntry({ device: 'e' }, { id: 'two', corrects: ['one', 'two'] });
    expect(ids(offered(ledgerOf([one, two]), ledgerOf()).entries).sort()).toEqual(['one', 'two']);
  });

  it('J5: an orphan stays, and a correction of it travels all the same', () => {
    const [, , orphan] = inventedChain('e', 3);
    const correction = inventedEntry({ device: 'd' }, { id: 'correction', corrects: [orphan!.header.id] });
    expect(ids(offered(ledgerOf([orphan!, correction]), ledgerOf()).entries)).toEqual(['correction']);
  });

  it.each([1, 2, 3])('two long branches of a cloned device meet at %i entries a time', (entries) => {
    const trunk = inventedChain('d', 20);
    const a = ledgerOf(trunk, inventedChain('d', 17, trunk[19]));
    const b = ledgerOf(trunk, inventedChain('d', 9, trunk[19], { kind: 'other.kind' }));
    let [unsureA, unsureB] = [{}, {}];
    let rounds = 0;
    for (; a.size !== 46 || b.size !== 46; rounds += 1) {
      const [haveA, haveB] = [haveOf(a, unsureB), haveOf(b, unsureA)];
      const [seenByA, seenByB] = [coverageOf(a, haveB), coverageOf(b, haveA)];
      [unsureA, unsureB] = [seenByA.unsure, seenByB.unsure];
      const toB = offer(a, seenByA, { entries, characters: 1e6 }).entries;
      const toA = offer(b, seenByB, { entries, characters: 1e6 }).entries;
      b.add(toB);
      a.add(toA);
      if (rounds > 100) throw new Error('no end of it');
    }
    expect(rounds).toBeLessThan(60);
  });
});

describe('accept', () => {
  const chain = inventedChain('d', 4);
  const sealed = chain.map((entry) => entry.sealed);
  const nothing = () => undefined;

  it('takes the next of a chain and its followers; what is held already is neither new nor refused (J2)', () => {
    const ledger = ledgerOf(chain.slice(0, 2));
    expect(accept(ledger.get, 'c', sealed, rules)).toEqual({ entries: chain.slice(2), refused: [] });
  });

  it('refuses a gap, and with it what follows in that chain, but no other device (J5)', () => {
    const other = inventedChain('e', 2).map((entry) => entry.sealed);
    const { entries, refused } = accept(nothing, 'c', [sealed[1]!, other[0]!, sealed[2]!, other[1]!], rules);
    expect(ids(entries)).toEqual(['e-1-', 'e-2-']);
    expect(refused.map((one) => one.problem)).toEqual([
      'the entry before it (sequence 1) is not here',
      'the entry before it (sequence 2) is not here',
    ]);
  });

  it('J5: never looks at kind or body', () => {
    const strange = inventedEntry({}, { kind: 'aurora.seen', version: 77, body: { anything: [1, null] } });
    expect(accept(nothing, 'c', [strange.sealed], rules).entries).toHaveLength(1);
  });

  it('takes both branches of a cloned device', () => {
    const branch = inventedChain('d', 1, chain[0], { kind: 'other.kind' });
    expect(accept(ledgerOf(chain).get, 'c', [branch[0]!.sealed], rules).entries).toEqual(branch);
  });

  it.each([
    ['another campaign', inventedEntry({ campaign: 'other' }).sealed, /belongs to campaign other/],
    ['a withheld body', withhold(sealed[0]!), /withheld/],
    [
      'a changed body',
      { ...sealed[0]!, body: sealed[0]!.body!.replace('87,5', '87,6') },
      /body does not match/,
    ],
    ['nothing at all', null as never, /not an entry/],
  ])('refuses %s', (_, one, message) => {
    expect(accept(nothing, 'c', [one], rules).refused[0]!.problem).toMatch(message);
  });

  it('refuses an entry that follows another device or jumps', () => {
    const stolen = inventedEntry({ device: 'e', sequence: 2, previous: chain[0]!.hash });
    const jump = inventedEntry({ device: 'd', sequence: 3, previous: chain[0]!.hash });
    const { refused } = accept(ledgerOf(chain).get, 'c', [stolen.sealed, jump.sealed], rules);
    expect(refused.map((one) => one.problem)).toEqual([
      'it follows an entry of another device',
      'its sequence does not follow the one before',
    ]);
  });
});
