import { describe, expect, it } from 'vitest';
import { haveOf } from './coverage.ts';
import { newSigner, verifyByNode } from './ed25519.suite.ts';
import { createLedger } from './ledger.ts';
import { createMemoryDisk, createMemoryStore } from './memory-store.ts';
import { openReplica } from './replica.ts';
import { type Listed, weighRevoked } from './revocation.ts';
import { createKeys, type Signer } from './signature.ts';
import { inventedDraft } from './simulation/invented.ts';
import { source } from './simulation/invented-pair.ts';

const minute = 60_000;
const start = Date.UTC(2031, 0, 17, 9, 0);

/** A tablet with a clock of its own that writes one entry at each of these minutes. */
async function written(signer: Signer | null, minutes: readonly number[]) {
  let now = start;
  const replica = await openReplica(createMemoryStore('c', createMemoryDisk(`e${minutes[0]}`)), {
    ...source(7 + minutes[0]!),
    now: () => now,
    verify: verifyByNode,
    ...(signer !== null && { signer }),
  });
  for (const at of minutes) {
    now = start + at * minute;
    await replica.write([inventedDraft(`${minutes[0]}-${at}`)]);
  }
  return replica.ledger.entries();
}

/** What is said of each of these entries, in their order. */
function said(entries: Awaited<ReturnType<typeof written>>, devices: readonly Listed[]) {
  const ledger = createLedger();
  ledger.add(entries);
  const keys = createKeys();
  const weigh = weighRevoked(ledger, devices);
  return entries.map((entry) => weigh(entry, keys.upTo(entry, ledger.get))?.since ?? null);
}

const heldOf = (entries: Awaited<ReturnType<typeof written>>) => {
  const ledger = createLedger();
  ledger.add(entries);
  return haveOf(ledger);
};

describe('an entry of a revoked device', () => {
  const listed = (key: string, more: Partial<Listed>): Listed => ({
    key,
    pairedAt: start - 1000 * minute,
    revokedAt: null,
    held: null,
    ...more,
  });

  it('control: while the device is let in, and where it is in no list, nothing is said of it', async () => {
    const signer = newSigner();
    const entries = await written(signer, [1, 20]);
    expect(said(entries, [listed(signer.key, {})])).toEqual([null, null]);
    expect(said(entries, [])).toEqual([null, null]);
    expect(said(entries, [listed(newSigner().key, { revokedAt: start })])).toEqual([null, null]);
  });

  it('was here before, came after, or was made after by its clock', async () => {
    const signer = newSigner();
    const entries = await written(signer, [1, 2, 3, 20]);
    const revokedAt = start + 10 * minute;
    const held = heldOf(entries.slice(0, 2));
    expect(said(entries, [listed(signer.key, { revokedAt, held })])).toEqual([
      'before',
      'before',
      'came after',
      'made after',
    ]);
    // a list of an older build noted nothing: the clock alone speaks
    expect(said(entries, [listed(signer.key, { revokedAt })])).toEqual([
      'before',
      'before',
      'before',
      'made after',
    ]);
  });

  it('a clock that runs ahead does not turn what was here into something made after', async () => {
    const signer = newSigner();
    const entries = await written(signer, [500, 501]);
    const held = heldOf(entries.slice(0, 1));
    const revokedAt = start + 10 * minute;
    expect(said(entries, [listed(signer.key, { revokedAt, held })])).toEqual(['before', 'made after']);
  });

  it('a copy that is behind what was held then says that it was here', async () => {
    const signer = newSigner();
    const entries = await written(signer, [1, 2, 3]);
    const revokedAt = start + 10 * minute;
    const held = heldOf(entries);
    expect(said(entries.slice(0, 2), [listed(signer.key, { revokedAt, held })])).toEqual([
      'before',
      'before',
    ]);
  });

  it('paired again under its key it is trusted again, except for what it made meanwhile', async () => {
    const signer = newSigner();
    const entries = await written(signer, [1, 20, 40]);
    const revokedAt = start + 10 * minute;
    const first = listed(signer.key, { revokedAt, held: heldOf(entries.slice(0, 1)) });
    const second = listed(signer.key, { pairedAt: start + 30 * minute });
    expect(said(entries, [second, first])).toEqual([null, 'made after', null]);
    // and revoked once more, all of it is
    const third = { ...second, revokedAt: start + 50 * minute, held: heldOf(entries) };
    expect(said(entries, [first, third])).toEqual(['before', 'made after', 'before']);
  });

  it('unsigned ones can be told for nobody', async () => {
    const entries = await written(null, [1, 20]);
    expect(said(entries, [listed(newSigner().key, { revokedAt: start })])).toEqual([null, null]);
  });
});
