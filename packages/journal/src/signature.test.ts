import { describe, expect, it } from 'vitest';
import { newSigner, verifyByNode } from './ed25519.suite.ts';
import type { Entry, Sealed } from './entry.ts';
import { accept } from './exchange.ts';
import { createLedger } from './ledger.ts';
import { RULES } from './rules.ts';
import { open } from './seal.ts';
import { claimOf, createKeys, proofOf, prove, type Signer, signAll } from './signature.ts';
import { inventedChain, inventedEntry } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

// RFC 8032, section 7.1, test 2: the message is the byte 0x72, "r".
const rfcKey = base64url('3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c');
const rfcSignature = base64url(
  '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
);

function base64url(hex: string): string {
  return Buffer.from(hex, 'hex').toString('base64url');
}

/** A chain that states its key with its first entry, or with a later one. */
async function signedChain(signer: Signer, count: number, from = 1): Promise<readonly Entry[]> {
  const device = `device-of-${signer.key.slice(0, 8)}`;
  const chain: Entry[] = [];
  for (let sequence = 1; sequence <= count; sequence += 1) {
    const previous = chain.at(-1)?.hash ?? null;
    const stating = sequence === from ? { key: signer.key } : {};
    const entry = inventedEntry({ device, sequence, previous, ...stating }, { reason: `for ${device}` });
    chain.push(...(sequence < from ? [entry] : await signAll([entry], signer, verifyByNode)));
  }
  return chain;
}

/** Offers these to somebody who holds `held`. */
async function offered(held: readonly Entry[], rows: readonly Sealed[]) {
  const ledger = createLedger();
  ledger.add(held);
  const taken = accept(ledger.get, 'c', rows, RULES);
  const beside = new Map(taken.entries.map((entry) => [entry.hash, entry]));
  const find = (hash: string) => beside.get(hash) ?? ledger.get(hash);
  return prove(taken, createKeys(), find, verifyByNode);
}

const sealedOf = (entries: readonly Entry[]) => entries.map((entry) => entry.sealed);

describe('verify', () => {
  it('the arithmetic lent to these tests is that of RFC 8032, section 7.1, test 2', () => {
    expect(verifyByNode(rfcKey, rfcSignature, 'r')).toBe(true);
    expect(verifyByNode(rfcKey, rfcSignature, 's')).toBe(false);
  });
});

describe('key', () => {
  it('open takes one text for one key: no padding, no spare bits, no other alphabet', () => {
    expect(open(inventedEntry({ key: rfcKey }).sealed).ok).toBe(true);
    const others = ['', `${rfcKey}=`, rfcKey.slice(1), `${rfcKey.slice(0, -1)}B`, `+${rfcKey.slice(1)}`];
    for (const key of others) expect(() => inventedEntry({ key }), key).toThrow(/"key" is not 32 bytes/);
  });
});

describe('proofOf', () => {
  it('J9: tells signed, unsigned, unknown and wrong apart', async () => {
    const signer = newSigner();
    const [first, second] = await signedChain(signer, 2);
    const { signature } = second!.sealed;
    const as = (changed: string | null) => ({
      ...second!,
      sealed: { ...second!.sealed, signature: changed },
    });
    expect(await proofOf(first!, null, verifyByNode)).toBe('signed');
    expect(await proofOf(second!, signer.key, verifyByNode)).toBe('signed');
    expect(await proofOf(second!, signer.key, undefined)).toBe('unchecked');
    expect(await proofOf(second!, null, verifyByNode)).toBe('unknown key');
    expect(await proofOf(second!, newSigner().key, verifyByNode)).toBe('wrong');
    expect(await proofOf(as(first!.sealed.signature), signer.key, verifyByNode)).toBe('wrong');
    expect(await proofOf(as(null), signer.key, verifyByNode)).toBe('wrong');
    expect(await proofOf(as(`${signature}=`), signer.key, verifyByNode)).toBe('wrong');
    expect(await proofOf(as(null), null, verifyByNode)).toBe('unsigned');
  });

  it('J9: a name has one key for ever: stating another is wrong, whoever signs it', async () => {
    const [old, next] = [newSigner(), newSigner()];
    const [first] = await signedChain(old, 1);
    const { device } = first!.header;
    const changing = inventedEntry({ device, sequence: 2, previous: first!.hash, key: next.key });
    for (const signer of [old, next]) {
      const signature = await signer.sign(changing.sealed.head);
      const signed = { ...changing, sealed: { ...changing.sealed, signature } };
      expect(claimOf(signed, old.key)).toEqual({
        is: 'wrong',
        problem: expect.stringMatching(/another key/),
      });
    }
  });
});

describe('prove', () => {
  it('J9: takes chains that are signed from their first entry, from a later one, or not at all', async () => {
    const signed = await signedChain(newSigner(), 4);
    const late = await signedChain(newSigner(), 5, 3);
    const never = inventedChain('old-tablet', 3);
    const all = [...signed, ...late, ...never];
    const { entries, refused } = await offered([], sealedOf(all));
    expect(refused).toEqual([]);
    expect(entries).toHaveLength(all.length);
  });

  it('J9: refuses a wrong signature and what follows it, and nothing of another device', async () => {
    const chain = await signedChain(newSigner(), 4);
    const other = await signedChain(newSigner(), 2);
    const rows = sealedOf([...chain, ...other]);
    rows[1] = { ...rows[1]!, signature: rows[0]!.signature };
    const { entries, refused } = await offered([], rows);
    expect(entries.map((entry) => entry.hash)).toEqual([chain[0]!, ...other].map((entry) => entry.hash));
    expect(refused.map(({ hash }) => hash)).toEqual(chain.slice(1).map((entry) => entry.hash));
    expect(refused[0]!.problem).toMatch(/not by its device's key/);
    expect(refused[1]!.problem).toMatch(/sequence 2.*not here/);
    // The same entries, sound, are taken next time: nothing of the refusal stays.
    expect((await offered([chain[0]!], sealedOf(chain))).entries).toHaveLength(3);
  });

  it('J9: notices a signature that was left behind, also where it cannot check any', async () => {
    const chain = await signedChain(newSigner(), 2);
    const stripped = { ...chain[1]!.sealed, signature: null };
    expect((await offered([chain[0]!], [stripped])).refused[0]!.problem).toMatch(/is missing/);
    const find = (hash: string) => chain.slice(0, 1).find((entry) => entry.hash === hash);
    const taken = accept(find, 'c', [stripped], RULES);
    const plainHttp = await prove(taken, createKeys(), find, undefined);
    expect(plainHttp.refused[0]!.problem).toMatch(/is missing/);
  });

  it('J9: nobody can write on in a signed name, however well the chain fits', async () => {
    const chain = await signedChain(newSigner(), 3);
    const { device } = chain[2]!.header;
    const place = { device, sequence: 4, previous: chain[2]!.hash };
    const unsigned = inventedEntry(place, { id: 'forged-1' });
    const stranger = newSigner();
    const byStranger = (more: { readonly key?: string }, id: string): Sealed => {
      const { sealed } = inventedEntry({ ...place, ...more }, { id });
      return { ...sealed, signature: String(stranger.sign(sealed.head)) };
    };
    const rows = [unsigned.sealed, byStranger({}, 'forged-2'), byStranger({ key: stranger.key }, 'forged-3')];
    const { entries, refused } = await offered(chain, rows);
    expect(entries).toEqual([]);
    expect(refused).toHaveLength(3);
  });

  it('J5: a signature under a key that this build cannot read is kept, not judged', async () => {
    const [entry] = await signAll([inventedEntry()], newSigner(), undefined);
    expect((await offered([], [entry!.sealed])).entries).toHaveLength(1);
  });

  it('A8: of 10,000 random mutations of signed entries none is taken; the control takes some', {
    timeout: 120_000,
  }, async () => {
    const random = seededRandom(2031);
    const chains = await Promise.all(Array.from({ length: 4 }, () => signedChain(newSigner(), 6)));
    const all = chains.flat();
    let taken = 0;
    let takenByControl = 0;
    for (let count = 0; count < 10_000; count += 1) {
      const victim = random.pick(all);
      const mutant = mutation(victim, all, random);
      const held = all.filter(({ header }) => header.sequence < victim.header.sequence);
      const { entries } = await offered(held, [mutant]);
      const isOriginal = all.some(({ sealed }) => isSame(sealed, mutant));
      if (!isOriginal && entries.length > 0) taken += 1;
      const find = (hash: string) => held.find((entry) => entry.hash === hash);
      if (!isOriginal && accept(find, 'c', [mutant], RULES).entries.length > 0) takenByControl += 1;
    }
    expect(taken).toBe(0);
    // Without the signatures, a mutation whose hash was mended is as good as any entry.
    expect(takenByControl).toBeGreaterThan(1_000);
  });
});

const isSame = (a: Sealed, b: Sealed) =>
  a.head === b.head && a.body === b.body && a.signature === b.signature && a.hash === b.hash;

/** Something was done to an entry on its way; often by somebody who knows how to mend the hashes afterwards. */
function mutation(
  { sealed, header }: Entry,
  all: readonly Entry[],
  random: ReturnType<typeof seededRandom>,
): Sealed {
  const { signature, head } = sealed;
  const other = random.pick(all).sealed;
  switch (random.below(8)) {
    case 0:
      return { ...sealed, signature: oneOff(signature!, random) };
    case 1:
      return { ...sealed, signature: null };
    case 2:
      return { ...sealed, signature: other.signature };
    case 3:
      return mended({ ...sealed, head: oneOff(head, random) });
    case 4:
      return mended({ ...sealed, head: head.replace('"by":"kv"', `"by":"k${random.below(1_000)}"`) });
    case 5:
      // Its words under another's signature, place and all.
      return mended({
        ...sealed,
        head: head.replace(/"reason":"[^"]*"/, `"reason":"${random.below(1_000)}"`),
      });
    case 6: {
      const previous = random.pick(all).hash;
      return mended({ ...sealed, head: head.replace(header.previous ?? 'null', previous) });
    }
    default:
      return random.chance(0.5)
        ? { ...sealed, body: oneOff(sealed.body!, random) }
        : { ...sealed, hash: other.hash, signature: other.signature };
  }
}

function mended(sealed: Sealed): Sealed {
  const salt = '000102030405060708090a0b0c0d0e0f';
  try {
    const header = JSON.parse(sealed.head);
    const draft = { ...header, body: JSON.parse(sealed.body!).readings };
    const again = inventedEntry({ ...header, salt }, draft);
    return { ...again.sealed, signature: sealed.signature };
  } catch {
    return sealed;
  }
}

function oneOff(text: string, random: ReturnType<typeof seededRandom>): string {
  const at = random.below(text.length);
  const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
  return text.slice(0, at) + letters[random.below(64)] + text.slice(at + 1);
}

describe('createKeys', () => {
  it('finds the key from anywhere in a long chain, remembering what it walked', async () => {
    const chain = await signedChain(newSigner(), 300, 7);
    const byHash = new Map(chain.map((entry) => [entry.hash, entry]));
    let looks = 0;
    const find = (hash: string) => {
      looks += 1;
      return byHash.get(hash);
    };
    const keys = createKeys();
    const { key } = chain[6]!.header;
    expect(keys.before(chain[6]!, find)).toBeNull();
    expect(keys.upTo(chain[6]!, find)).toBe(key);
    expect(keys.upTo(chain[299]!, find)).toBe(key);
    looks = 0;
    expect(keys.before(chain[250]!, find)).toBe(key);
    expect(looks).toBeLessThan(70);
  });

  it('remembers nothing of a chain with a hole: what fills it may state a key', async () => {
    const chain = await signedChain(newSigner(), 4);
    const byHash = new Map(chain.slice(1).map((entry) => [entry.hash, entry]));
    const keys = createKeys();
    const find = (hash: string) => byHash.get(hash);
    expect(keys.before(chain[3]!, find)).toBeNull();
    byHash.set(chain[0]!.hash, chain[0]!);
    expect(keys.before(chain[3]!, find)).toBe(chain[0]!.header.key);
  });

  it('each branch of a cloned device has the key that its own past states', async () => {
    const signer = newSigner();
    const trunk = inventedChain('d', 1);
    const left = inventedEntry({ sequence: 2, previous: trunk[0]!.hash, key: signer.key }, { id: 'left' });
    const right = inventedEntry({ sequence: 2, previous: trunk[0]!.hash }, { id: 'right' });
    const byHash = new Map([...trunk, left, right].map((entry) => [entry.hash, entry]));
    const keys = createKeys();
    expect(keys.upTo(left, (hash) => byHash.get(hash))).toBe(signer.key);
    expect(keys.upTo(right, (hash) => byHash.get(hash))).toBeNull();
  });
});

describe('signAll', () => {
  it('a key whose halves do not belong together is noticed before anything is stored', async () => {
    const broken: Signer = { key: newSigner().key, sign: newSigner().sign };
    await expect(signAll(inventedChain('d', 2), broken, verifyByNode)).rejects.toThrow(/do not fit/);
  });
});
