import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openSigning } from './signing.ts';

// RFC 8032, section 7.1, test 2: the message is the byte 0x72, "r".
const rfcKey = Buffer.from(
  '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
  'hex',
).toString('base64url');
const rfcSignature = Buffer.from(
  '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  'hex',
).toString('base64url');

describe('openSigning', () => {
  afterEach(() => {
    vi.unstubAllGlobals();
    vi.restoreAllMocks();
  });

  it('checks as RFC 8032, section 7.1, test 2 says, and takes nothing else', async () => {
    const { verify } = await openSigning();
    expect(await verify!(rfcKey, rfcSignature, 'r')).toBe(true);
    expect(await verify!(rfcKey, rfcSignature, 'R')).toBe(false);
    expect(await verify!(rfcKey, `A${rfcSignature.slice(1)}`, 'r')).toBe(false);
    expect(await verify!('no key at all', rfcSignature, 'r')).toBe(false);
  });

  it('makes one key, keeps it, and hands its private half to nobody', async () => {
    vi.stubGlobal('indexedDB', new IDBFactory());
    const generate = vi.spyOn(crypto.subtle, 'generateKey');
    const opened = await Promise.all([openSigning(), openSigning()]);
    const later = await openSigning();
    const keys = [...opened, later].map((one) => one.signer!.key);
    expect(new Set(keys).size).toBe(1);
    const made = (await generate.mock.results[0]!.value) as CryptoKeyPair;
    expect(made.privateKey.extractable).toBe(false);
    await expect(crypto.subtle.exportKey('pkcs8', made.privateKey)).rejects.toThrow(/extract/);
    const signature = await later.signer!.sign('Ceredin Saddle, 87,5 cm ±');
    expect(await opened[0].verify!(keys[0]!, signature, 'Ceredin Saddle, 87,5 cm ±')).toBe(true);
    expect(signature).toMatch(/^[A-Za-z0-9_-]{86}$/);
  });

  it('plain http, where there is no WebCrypto, gives nothing and does not fail', async () => {
    vi.stubGlobal('crypto', { getRandomValues: () => new Uint8Array(1) });
    expect(await openSigning()).toEqual({});
  });

  it('a browser without this curve gives nothing; one that keeps no keys can still check', async () => {
    vi.spyOn(crypto.subtle, 'importKey').mockRejectedValueOnce(new DOMException('', 'NotSupportedError'));
    expect(await openSigning()).toEqual({});
    vi.stubGlobal('indexedDB', {
      open: () => {
        throw new DOMException('', 'UnknownError');
      },
    });
    const { signer, verify } = await openSigning();
    expect(signer).toBeUndefined();
    expect(await verify!(rfcKey, rfcSignature, 'r')).toBe(true);
  });
});
