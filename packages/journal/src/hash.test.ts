import { expect, it } from 'vitest';
import { hashBytes, hashText } from './hash.ts';

// FIPS 180-2 appendix B.1 and B.2 (the one- and two-block messages), and the well-known digest of nothing.
it.each([
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
])('hashText(%j) is the published digest', (text, digest) => {
  expect(hashText(text)).toBe(digest);
  expect(hashBytes(new TextEncoder().encode(text))).toBe(digest);
});

it('hashText hashes UTF-8 bytes', () => {
  expect(hashText('ö€😀')).toBe(
    hashBytes(Uint8Array.of(0xc3, 0xb6, 0xe2, 0x82, 0xac, 0xf0, 0x9f, 0x98, 0x80)),
  );
});
