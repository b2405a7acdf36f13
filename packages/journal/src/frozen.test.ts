import { createHash, createPrivateKey, createPublicKey, verify } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { digest } from './digest.ts';
import { verifyByNode } from './ed25519.suite.ts';
import type { Sealed } from './entry.ts';
import { createFold } from './fold.ts';
import { createMemoryDisk, createMemoryStore } from './memory-store.ts';
import { openReplica } from './replica.ts';
import { shuffled } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

// Journals of earlier releases, invented, never changed: a new release adds a file and keeps these (J5).
const frozen = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../frozen/${name}.json`, import.meta.url), 'utf8'));

// A device that was cloned, two corrections of one reading, a kind nobody knows and a clock a year behind.
const ROWS = frozen('0.1.0') as Sealed[];

// The same with signatures (J9), made by the replica of release 0.1.0. The file says how its keys were made.
const SIGNED = frozen('0.1.0-signed') as {
  readonly phrases: Readonly<Record<string, string>>;
  readonly entriesDigest: string;
  readonly entries: readonly Sealed[];
};

function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex');
}

async function opened(rows: readonly Sealed[]) {
  const disk = createMemoryDisk('epoch');
  disk.rows.push(...rows);
  const source = { now: () => 0, randomBytes: seededRandom(1).bytes };
  const { campaign } = JSON.parse(rows[0]!.head) as { readonly campaign: string };
  return openReplica(createMemoryStore(campaign, disk), { ...source, verify: verifyByNode });
}

describe('the frozen journal of 0.1.0', () => {
  it('J5: opens whole, with hashes that another SHA-256 confirms', async () => {
    const { ledger, damaged } = await opened(ROWS);
    expect(damaged).toEqual([]);
    expect(digest(ledger)).toBe('6720ed215cb99311bc761f34f9dab61283b4372e405e9f3cf27e9573d1076637');
    for (const { hash, head, body } of ROWS) {
      expect(sha256(head)).toBe(hash);
      expect(sha256(body!)).toBe(JSON.parse(head).bodyHash);
    }
  });

  it('keeps its order, its fork, its links, and the text a person typed', async () => {
    const { ledger } = await opened(shuffled(ROWS, seededRandom(3)));
    expect(ledger.entries().map((entry) => entry.header.kind)).toEqual([
      'campaign.opened',
      'person.logged',
      'hole.logged',
      'run.logged',
      'piece.logged',
      'reading.corrected',
      'aurora.seen',
      'reading.corrected',
      'thing.withdrawn',
    ]);
    expect(ledger.forks()).toEqual([
      { device: '01c077fc-ba00-70e3-96c1-9ce222b0c08e', sequence: 3, hashes: expect.any(Array) },
    ]);
    expect(ledger.waiting()).toEqual([]);
    const [, , , , piece, , , , withdrawn] = ledger.entries();
    const corrections = ledger.entries().filter((entry) => entry.header.corrects?.includes(piece!.header.id));
    expect(corrections.map((entry) => entry.header.reason).sort()).toEqual([
      'measured again: öäü € 😀 "quoted" \\ \u0007',
      'read the tape from the wrong end',
    ]);
    expect(withdrawn!.header.clockOff).toBe(-365 * 86_400_000);
  });

  it('J1: folds to the same readings in any order of arrival', async () => {
    const texts = new Set<string>();
    for (let seed = 0; seed < 20; seed += 1) {
      const { ledger } = await opened(shuffled(ROWS, seededRandom(seed)));
      const fold = createFold<string[]>({
        threadsOf: (entry) => [String(entry.body?.hole ?? 'campaign').slice(0, 8)],
        initial: () => [],
        apply: (lengths, { body }) => {
          const { length } = (body?.readings ?? {}) as { readonly length?: string };
          if (length !== undefined) lengths.push(length);
        },
      });
      fold.add(ledger.entries());
      texts.add(JSON.stringify([...fold.threads()].sort().map((thread) => fold.state(thread))));
    }
    expect([...texts]).toHaveLength(1);
    expect(
      JSON.parse([...texts][0]!)
        .flat()
        .sort(),
    ).toEqual(['87,5 cm', '87,9 cm', '88.1 cm']);
  });
});

describe('the frozen journal of 0.1.0 with signatures', () => {
  it('J5: opens whole, with hashes that another SHA-256 confirms, one body withheld', async () => {
    const { ledger, damaged } = await opened(SIGNED.entries);
    expect(damaged).toEqual([]);
    expect(digest(ledger)).toBe('d48b66e6c79b73df1b9e4b1b64453ef1c2da02dd31feef024a1bb68cf0b74611');
    expect(SIGNED.entriesDigest).toBe(digest(ledger));
    expect(SIGNED.entries.filter(({ body }) => body === null)).toHaveLength(1);
    for (const { hash, head, body } of SIGNED.entries) {
      expect(sha256(head)).toBe(hash);
      if (body !== null) expect(sha256(body)).toBe(JSON.parse(head).bodyHash);
    }
  });

  it('J9: four devices sign, one from its fourth entry on, one also after it was cloned and one under a second name', async () => {
    const { ledger, proof } = await opened(SIGNED.entries);
    const told = await Promise.all(
      ledger.entries().map(async (entry) => {
        const { device, sequence, kind, key } = entry.header;
        return `${device.slice(-4)} ${sequence} ${kind} ${await proof(entry)}${key === undefined ? '' : ', states its key'}`;
      }),
    );
    expect(told).toEqual([
      'abcd 1 campaign.opened unsigned',
      'abcd 2 person.logged unsigned',
      'abcd 3 hole.logged unsigned',
      'abcd 4 run.logged signed, states its key',
      '7359 1 piece.logged signed, states its key',
      '7359 2 reading.corrected signed',
      '7359 2 reading.corrected signed',
      '9fbb 1 aurora.seen signed, states its key',
      'c1b7 1 piece.logged signed, states its key',
      'e58c 1 thing.withdrawn signed, states its key',
    ]);
    expect(ledger.forks().map(({ sequence }) => sequence)).toEqual([2]);
    expect(ledger.waiting()).toEqual([]);
  });

  it('J9: the signatures are Ed25519 over the head by the keys that the phrases give, as node:crypto says', () => {
    const keys = new Map(Object.entries(SIGNED.phrases).map(([key, phrase]) => [key, publicHalfOf(phrase)]));
    const stated = new Map<string, string>();
    let signed = 0;
    for (const { hash, head, signature } of SIGNED.entries) {
      const { key, previous } = JSON.parse(head) as { key?: string; previous: string | null };
      const own = key ?? stated.get(previous ?? '');
      if (own === undefined) continue;
      stated.set(hash, own);
      const made = keys.get(own)!;
      expect(made.export({ format: 'jwk' }).x).toBe(own);
      expect(verify(null, Buffer.from(head), made, Buffer.from(signature!, 'base64url'))).toBe(true);
      signed += 1;
    }
    expect(signed).toBe(7);
  });

  it('control: a signature that is exchanged, changed or cut off is seen', async () => {
    const wrong = SIGNED.entries.map((sealed, index) => {
      const { signature } = sealed;
      if (signature === null) return sealed;
      if (index % 3 === 0) return { ...sealed, signature: null };
      if (index % 3 === 1) return { ...sealed, signature: SIGNED.entries.at(-1)!.signature };
      return { ...sealed, signature: `${signature.startsWith('A') ? 'B' : 'A'}${signature.slice(1)}` };
    });
    wrong[wrong.length - 1] = { ...wrong.at(-1)!, signature: SIGNED.entries[3]!.signature };
    const { ledger, proof } = await opened(wrong);
    const proofs = await Promise.all(ledger.entries().map((entry) => proof(entry)));
    expect(proofs.filter((one) => one === 'wrong')).toHaveLength(7);
    expect(proofs).not.toContain('signed');
  });
});

/** The key whose 32 secret bytes are the SHA-256 of a phrase (PKCS #8 of RFC 8410 around them). */
function publicHalfOf(phrase: string) {
  const secret = createHash('sha256').update(phrase, 'utf8').digest();
  const der = Buffer.concat([Buffer.from('302e020100300506032b657004220420', 'hex'), secret]);
  return createPublicKey(createPrivateKey({ key: der, format: 'der', type: 'pkcs8' }));
}
