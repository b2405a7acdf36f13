import { expect, it } from 'vitest';
import type { Entry } from './entry.ts';
import { createLedger } from './ledger.ts';
import { createPen } from './pen.ts';
import { RULES } from './rules.ts';
import { inventedChain, inventedDraft, inventedEntry } from './simulation/invented.ts';
import { NOON, source } from './simulation/invented-pair.ts';

function pen(held: readonly Entry[] = [], beside: readonly Entry[] = [], clockOff = 0, key?: string) {
  const ledger = createLedger();
  ledger.add(held);
  const fresh = new Map(beside.map((entry) => [entry.hash, entry]));
  const own = { rules: RULES, campaign: 'c', device: 'd', ledger, clockOff, beside: fresh };
  const options = { ...source(1), ...own, ...(key === undefined ? {} : { key }) };
  return { ...createPen(options), fresh };
}

it('write goes on where the chain ended', () => {
  const chain = inventedChain('d', 2);
  const [entry] = pen(chain).write([inventedDraft('next')]);
  expect([entry!.header.sequence, entry!.header.previous]).toEqual([3, chain[1]!.hash]);
});

it('write is later than every stamp held and every stamp beside it', () => {
  const late = '009999999999999-000007';
  const [entry] = pen([], [inventedEntry({ device: 'e', stamp: late })]).write([inventedDraft('next')]);
  expect(entry!.header.stamp).toBe('009999999999999-000008');
});

it('write is all or none: after a draft that cannot be sealed nothing has changed', () => {
  const { write, fresh, hasWritten } = pen();
  expect(() => write([inventedDraft('a'), inventedDraft('b', { body: { note: Number.NaN } })])).toThrow(
    /note/,
  );
  expect([fresh.size, hasWritten()]).toEqual([0, false]);
  expect(write([inventedDraft('a')])[0]!.header.sequence).toBe(1);
  expect([fresh.size, hasWritten()]).toEqual([1, true]);
});

it('J2: a draft that is held, is beside, or comes twice is one entry and is not stored again', () => {
  const chain = inventedChain('d', 1);
  const { write, fresh } = pen(chain);
  expect(write([inventedDraft(chain[0]!.header.id)])).toEqual(chain);
  const [one, two] = write([inventedDraft('a'), inventedDraft('a')]);
  expect(two).toBe(one);
  expect(write([inventedDraft('a')])).toEqual([one]);
  expect(fresh.size).toBe(1);
});

it('J9: the first entry written states the key that it is given, and no other does', () => {
  const key = 'one-key'.padEnd(43, 'A');
  const { write } = pen(inventedChain('d', 2), [], 0, key);
  const drafts = ['a', 'b', 'c'].map((id) => inventedDraft(id));
  const written = [...write(drafts.slice(0, 2)), ...write(drafts.slice(2))];
  expect(written.map((entry) => entry.header.key)).toEqual([key, undefined, undefined]);
});

it.each([
  [4_999, undefined],
  [-5_000.4, -5_000],
  [NOON, NOON],
])('J7: a clock off by %d ms is written as %s', (off, written) => {
  expect(pen([], [], off).write([inventedDraft('a')])[0]!.header.clockOff).toBe(written);
});
