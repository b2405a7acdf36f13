import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { canonical } from './canonical.ts';
import type { Sealed } from './entry.ts';
import { hashText } from './hash.ts';
import { ENTRY_BYTES_LIMIT, open, reopen, seal, withhold } from './seal.ts';
import { inventedDraft, inventedEntry } from './simulation/invented.ts';
import { seededRandom } from './simulation/random.ts';

const PLACE = {
  campaign: 'c',
  device: 'd',
  sequence: 1,
  previous: null,
  stamp: '001926158400000-000000',
  salt: '000102030405060708090a0b0c0d0e0f',
};

/** An entry with another head, hashed rightly: only the form can be wrong with it. */
function withHeader(change: Record<string, unknown>): Sealed {
  const { header, sealed } = inventedEntry();
  const head = canonical(JSON.parse(JSON.stringify({ ...header, ...change })));
  return { ...sealed, head, hash: hashText(head) };
}

function problem(sealed: unknown): string {
  const opened = open(sealed as Sealed);
  return opened.ok ? 'none' : opened.problem;
}

describe('seal', () => {
  it('gives canonical bytes, hashed as they are; the body is salted', () => {
    const entry = seal(inventedDraft('a'), PLACE);
    const { sealed } = entry;
    expect(sealed.body).toBe(
      '{"readings":{"hole":"CER-A","readings":{"length":"87,5 cm","note":"about a"}},"salt":"000102030405060708090a0b0c0d0e0f"}',
    );
    expect(entry.header.bodyHash).toBe(hashText(sealed.body!));
    expect(sealed.hash).toBe(hashText(sealed.head));
    expect(canonical(JSON.parse(sealed.head))).toBe(sealed.head);
    expect(sealed.signature).toBeNull();
    expect(open(sealed)).toEqual({ ok: true, entry });
    expect(reopen(sealed)).toEqual({ ok: true, entry });
  });

  it('another salt gives another body hash for the same readings', () => {
    const other = seal(inventedDraft('a'), { ...PLACE, salt: 'f'.repeat(32) });
    expect(other.header.bodyHash).not.toBe(seal(inventedDraft('a'), PLACE).header.bodyHash);
  });

  it('throws and says where for a reading that cannot be written', () => {
    const draft = inventedDraft('a', { body: { readings: { note: 'x\0y' } } });
    expect(() => seal(draft, PLACE)).toThrow(/readings\.readings\.note.*U\+0000/);
  });

  it('throws for an entry that is too big and for a draft without an id', () => {
    const draft = inventedDraft('a', { body: { note: 'x'.repeat(ENTRY_BYTES_LIMIT) } });
    expect(() => seal(draft, PLACE)).toThrow(/larger than 256 kB/);
    expect(() => seal(inventedDraft(''), PLACE)).toThrow(/"id"/);
  });
});

describe('open', () => {
  it('J5: keeps header properties that it does not know', () => {
    const sealed = withHeader({ weather: 'drifting snow', nested: { depth: [1, 2] } });
    const opened = open(sealed);
    expect(opened.ok && opened.entry.header).toMatchObject({ weather: 'drifting snow' });
    expect(opened.ok && opened.entry.sealed.head).toBe(sealed.head);
  });

  it("hashes with the platform's own SHA-256 where it is given, and with nothing else then", () => {
    const sealed = withHeader({});
    const hashed: string[] = [];
    const own = (text: string) => {
      hashed.push(text);
      return createHash('sha256').update(text).digest('hex');
    };
    expect(open(sealed, own)).toEqual(open(sealed));
    expect(hashed).toEqual([sealed.head, sealed.body]);
    expect(open(sealed, () => 'f'.repeat(64)).ok).toBe(false);
  });

  it('J5: takes any kind, version and body', () => {
    expect(problem(withHeader({ kind: 'aurora.seen', version: 99 }))).toBe('none');
  });

  it('detects every single changed character of hash, head and body', () => {
    const { sealed } = inventedEntry();
    for (const part of ['hash', 'head', 'body'] as const) {
      const text = sealed[part]!;
      for (let index = 0; index < text.length; index += 1) {
        const other = text[index] === '0' ? '1' : '0';
        const changed = { ...sealed, [part]: text.slice(0, index) + other + text.slice(index + 1) };
        expect(problem(changed), `${part} ${index}`).not.toBe('none');
      }
    }
  });

  it.each([
    [{ id: '' }, /"id"/],
    [{ id: 'two words' }, /"id"/],
    [{ campaign: 7 }, /"campaign"/],
    [{ device: 'x'.repeat(129) }, /"device"/],
    [{ version: 0 }, /"version"/],
    [{ version: 1.5 }, /"version"/],
    [{ observedAt: 12 }, /"observedAt"/],
    [{ stamp: '2031' }, /"stamp"/],
    [{ sequence: 0 }, /"sequence"/],
    [{ sequence: 2 }, /"previous" does not fit/],
    [{ previous: 'a'.repeat(64) }, /"previous" does not fit/],
    [{ previous: 'abc', sequence: 2 }, /"previous"/],
    [{ bodyHash: 'zz' }, /"bodyHash"/],
    [{ corrects: 'a' }, /"corrects"/],
    [{ corrects: [1] }, /"corrects"/],
    [{ corrects: Array(1001).fill('a') }, /more than 1000/],
    [{ reason: 5 }, /"reason"/],
    [{ clockOff: 'much' }, /"clockOff"/],
  ])('refuses a head with %j', (change, message) => {
    expect(problem(withHeader(change))).toMatch(message);
  });

  it.each([
    null,
    7,
    'text',
    [],
    {},
    { hash: 'x' },
    { hash: 'a'.repeat(64), head: '{}', body: 7, signature: null },
  ])('is total: %j gets an answer', (value) => {
    expect(problem(value)).not.toBe('none');
  });

  it.each([
    '[]',
    'null',
    '"x"',
    '{}',
    '{"readings":1,"salt":"00"}',
    'not json',
    '{"a":1,"a":2}',
    '{ }',
    '{"x":"\\u0000"}',
  ])('is total: head or body %j gets an answer', (text) => {
    const { sealed } = inventedEntry();
    expect(problem({ ...sealed, head: text, hash: hashText(text) })).not.toBe('none');
    const head = canonical({ ...inventedEntry().header, bodyHash: hashText(text) });
    expect(problem({ ...sealed, body: text, head, hash: hashText(head) })).not.toBe('none');
  });

  it('refuses text in another form even when the hash is right', () => {
    const { sealed } = inventedEntry();
    const head = sealed.head.replace('"by":', '"by": ');
    expect(problem({ ...sealed, head, hash: hashText(head) })).toMatch(/canonical form/);
  });

  it('counts size in UTF-8 bytes', () => {
    const fits = { note: '€'.repeat(87_000) };
    const tooBig = { note: '€'.repeat(87_300) };
    expect(problem(seal(inventedDraft('a', { body: fits }), PLACE).sealed)).toBe('none');
    expect(() => seal(inventedDraft('a', { body: tooBig }), PLACE)).toThrow(/larger/);
  });

  it('survives 3,000 random mutilations without throwing or accepting', () => {
    const random = seededRandom(11);
    const { sealed } = inventedEntry();
    for (let round = 0; round < 3000; round += 1) {
      const part = random.pick(['head', 'body'] as const);
      const text = sealed[part]!;
      const at = random.below(text.length);
      const cut = random.below(4);
      const put = String.fromCharCode(
        ...Array.from({ length: random.below(3) }, () => random.below(0x10000)),
      );
      const changed = text.slice(0, at) + put + text.slice(at + cut);
      if (changed !== text) expect(problem({ ...sealed, [part]: changed })).not.toBe('none');
    }
  });
});

describe('withhold', () => {
  it('leaves hash and chain checkable without the body', () => {
    const { sealed } = inventedEntry();
    const opened = open(withhold(sealed));
    expect(opened.ok && opened.entry.body).toBeNull();
    expect(opened.ok && opened.entry.hash).toBe(sealed.hash);
  });
});
