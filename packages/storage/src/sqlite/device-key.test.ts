import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openDeviceKey } from './device-key.ts';
import { verifyEd25519 } from './ed25519.ts';
import { inFolder } from './folders.suite.ts';

const isPosix = process.platform !== 'win32';

describe('openDeviceKey', () => {
  it('makes one key and finds it again; what it signs is right, with umlauts and all', () =>
    inFolder(async (folder) => {
      const made = openDeviceKey(folder);
      const found = openDeviceKey(folder);
      expect(found.key).toBe(made.key);
      expect(made.key).toMatch(/^[A-Za-z0-9_-]{43}$/);
      const text = 'Ceredin Saddle: 87,5 cm ± 0,3 über dem Nullpunkt';
      expect(verifyEd25519(made.key, await found.sign(text), text)).toBe(true);
      expect(readdirSync(folder)).toEqual(['device-key.pem']);
    }));

  it.runIf(isPosix)('is readable by its owner alone, and is closed again where a copy has opened it', () =>
    inFolder(async (folder) => {
      openDeviceKey(folder);
      const file = join(folder, 'device-key.pem');
      expect((statSync(file).mode & 0o777).toString(8)).toBe('600');
      chmodSync(file, 0o644);
      openDeviceKey(folder);
      expect((statSync(file).mode & 0o777).toString(8)).toBe('600');
    }),
  );

  it('refuses in words what is no key or another kind of key, and leaves the file as it is', () =>
    inFolder(async (folder) => {
      const file = join(folder, 'device-key.pem');
      writeFileSync(file, 'torn');
      expect(() => openDeviceKey(folder)).toThrow(/can't be used.*device-key\.pem.*new device name/);
      expect(readFileSync(file, 'utf8')).toBe('torn');
    }));

  it('half a key from a power cut is no key: another is made beside it', () =>
    inFolder(async (folder) => {
      writeFileSync(join(folder, 'device-key.pem.unfinished'), '-----BEGIN PRI');
      expect(openDeviceKey(folder).key).toMatch(/^[A-Za-z0-9_-]{43}$/);
      expect(readdirSync(folder)).toEqual(['device-key.pem']);
    }));
});

// RFC 8032, section 7.1, tests 2 and 3.
const vectors = [
  {
    key: '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    text: 'r',
    signature:
      '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  },
  {
    key: 'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    text: '',
    signature:
      'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  },
] as const;

const base64url = (hex: string) => Buffer.from(hex, 'hex').toString('base64url');

describe('verifyEd25519', () => {
  it.each(vectors)('checks as RFC 8032, section 7.1 says: the text "$text"', ({ key, text, signature }) => {
    expect(verifyEd25519(base64url(key), base64url(signature), text)).toBe(true);
    expect(verifyEd25519(base64url(key), base64url(signature), `${text}.`)).toBe(false);
  });

  it('says no, and does not throw, to keys and signatures that are none', () => {
    const [one, two] = vectors;
    expect(verifyEd25519(base64url(two.key), base64url(one.signature), one.text)).toBe(false);
    expect(verifyEd25519('', base64url(one.signature), one.text)).toBe(false);
    expect(verifyEd25519('%%%', base64url(one.signature), one.text)).toBe(false);
    expect(verifyEd25519(base64url(one.key), '', one.text)).toBe(false);
  });
});
