import { execFileSync, spawnSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inFolder } from '../folders.suite.ts';
import { type Identity, issueCertificate, makeAuthority } from './authority.ts';
import { campCertificates, fingerprintOf, namedAuthority, setAuthorityAside } from './certificates.ts';
import { bytesOf, isWithin, nameConstraints, privateRanges } from './name-constraints.ts';

const host = 'ceredin.internal';
const day = 86_400_000;
const begin = Date.UTC(2030, 10, 17, 9, 40);

const hasOpenssl = spawnSync('openssl', ['version']).status === 0;

/** What OpenSSL, which is not ours, says of a certificate: "OK", or its complaint. */
function verified(authority: Identity, leaf: Identity, more: readonly string[] = []): string {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-verify-'));
  try {
    writeFileSync(join(folder, 'ca.pem'), authority.certificate);
    writeFileSync(join(folder, 'leaf.pem'), leaf.certificate);
    const at = ['-attime', String(Math.floor(begin / 1000))];
    const words = ['verify', '-x509_strict', '-CAfile', 'ca.pem', ...(more.includes('-attime') ? [] : at)];
    execFileSync('openssl', [...words, ...more, 'leaf.pem'], { cwd: folder, stdio: 'pipe' });
    return 'OK';
  } catch (error) {
    const { stdout, stderr } = error as { stdout: Buffer; stderr: Buffer };
    return /error \d+ at [^\n]*?lookup: ?([^\n]*)/.exec(`${stdout}${stderr}`)?.[1] ?? `${stdout}${stderr}`;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const years = (certificate: string) => {
  const { validFrom, validTo } = new X509Certificate(certificate);
  return [Date.parse(validFrom), Date.parse(validTo)] as const;
};

describe.skipIf(!hasOpenssl)('the authority of the camp', async () => {
  const authority = await makeAuthority(host, ['192.168.7.2', '203.0.113.9'], begin);
  const { stdout } = spawnSync('openssl', ['x509', '-noout', '-text'], { input: authority.certificate });
  const text = String(stdout);

  it('is what OpenSSL reads: P-256, path length 0, its constraints critical', () => {
    expect(text).toContain('ASN1 OID: prime256v1');
    expect(text).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    expect(text).toMatch(/Key Usage: critical\s+Certificate Sign, CRL Sign/);
    const ranges =
      /Name Constraints: critical\s+Permitted:\s+([\s\S]*?)X509v3/.exec(text)?.[1]?.trim().split(/\s+/) ?? [];
    expect(ranges).toEqual([
      `DNS:${host}`,
      'IP:10.0.0.0/255.0.0.0',
      'IP:172.16.0.0/255.240.0.0',
      'IP:192.168.0.0/255.255.0.0',
      'IP:169.254.0.0/255.255.0.0',
      'IP:FC00:0:0:0:0:0:0:0/FE00:0:0:0:0:0:0:0',
      'IP:203.0.113.9/255.255.255.255',
    ]);
  });

  it.each([
    [host, ['192.168.7.2']],
    [host, ['10.1.2.3', '172.31.255.1', '169.254.8.8', 'fd12:3456::1']],
    [`tablet.${host}`, ['203.0.113.9']],
  ])('control: a certificate for %s, %s passes', async (name, addresses) => {
    const leaf = await issueCertificate(authority, name, addresses, begin);
    expect(verified(authority, leaf)).toBe('OK');
    expect(verified(authority, leaf, ['-verify_hostname', name])).toBe('OK');
    for (const address of addresses) expect(verified(authority, leaf, ['-verify_ip', address])).toBe('OK');
  });

  it.each([
    ['a site of the world', 'bank.example', ['192.168.7.2']],
    ['a name that only ends alike', 'notceredin.internal', ['192.168.7.2']],
    ['the domain above', 'internal', ['192.168.7.2']],
    ['a public address', host, ['198.51.100.7']],
    ['an address beside the one let in', host, ['203.0.113.10']],
    ['172.32, just outside the private range', host, ['172.32.0.1']],
    ['a public IPv6 address', host, ['2001:db8::1']],
  ])('names outside are refused by its constraints: %s', async (_what, name, addresses) => {
    const leaf = await issueCertificate(authority, name, addresses, begin);
    expect(verified(authority, leaf)).toContain('permitted subtree violation');
  });

  it('is no way to a second authority: what a certificate of it signs is refused', async () => {
    const middle = await issueCertificate(authority, host, ['192.168.7.2'], begin);
    const below = await issueCertificate(middle, host, ['192.168.7.2'], begin);
    const folder = mkdtempSync(join(tmpdir(), 'firnbook-verify-'));
    for (const [name, one] of Object.entries({ authority, middle, below }))
      writeFileSync(join(folder, `${name}.pem`), one.certificate);
    const words = ['verify', '-CAfile', 'authority.pem', '-untrusted', 'middle.pem', 'below.pem'];
    expect(() => execFileSync('openssl', words, { cwd: folder, stdio: 'pipe' })).toThrow();
    rmSync(folder, { recursive: true });
  });

  it('another camp of the same name does not vouch for it', async () => {
    const other = await makeAuthority(host, ['192.168.7.2'], begin);
    const leaf = await issueCertificate(other, host, ['192.168.7.2'], begin);
    expect(verified(authority, leaf)).not.toBe('OK');
    expect(fingerprintOf(other.certificate)).not.toBe(fingerprintOf(authority.certificate));
  });

  it("a server's certificate lasts at most 825 days, and holds for clocks a year off either way", async () => {
    const leaf = await issueCertificate(authority, host, ['192.168.7.2'], begin);
    const [from, to] = years(leaf.certificate);
    expect((to - from) / day).toBeLessThanOrEqual(825);
    for (const off of [-365, 0, 365])
      expect(verified(authority, leaf, ['-attime', String(Math.floor((begin + off * day) / 1000))])).toBe(
        'OK',
      );
    for (const off of [-400, 500])
      expect(verified(authority, leaf, ['-attime', String(Math.floor((begin + off * day) / 1000))])).toMatch(
        /not yet valid|expired/,
      );
  });
});

describe('what lies in the data folder', () => {
  const make = (folder: string, now = begin, addresses = ['192.168.7.2'], name = host) =>
    campCertificates(folder, name, addresses, now);

  it('keys and all are for this account alone', () =>
    inFolder(async (folder) => {
      await make(folder);
      const files = readdirSync(join(folder, 'network'));
      expect(files.sort()).toEqual(['authority.key.pem', 'authority.pem', 'server.key.pem', 'server.pem']);
      for (const file of files) expect(statSync(join(folder, 'network', file)).mode & 0o777).toBe(0o600);
      expect(statSync(join(folder, 'network')).mode & 0o777).toBe(0o700);
    }));

  it('stays the same until it is renewed, a good year before it ends; the authority stays', () =>
    inFolder(async (folder) => {
      const first = await make(folder);
      expect(first.isNew).toBe(true);
      expect(await make(folder, begin + 60 * day)).toEqual({ ...first, isNew: false });
      const later = await make(folder, begin + 75 * day);
      expect(later.isNew).toBe(true);
      expect(later.authority).toBe(first.authority);
      const [, to] = years(later.server.certificate);
      expect(to).toBeGreaterThan(begin + (75 + 365) * day);
      expect((await make(folder, begin + 76 * day)).isNew).toBe(false);
    }));

  it('is renewed for an address that is new, and not for one less', () =>
    inFolder(async (folder) => {
      await make(folder, begin, ['192.168.7.2', '10.0.0.5']);
      expect((await make(folder, begin, ['10.0.0.5'])).isNew).toBe(false);
      const moved = await make(folder, begin, ['192.168.1.77']);
      expect(moved.isNew).toBe(true);
      expect(new X509Certificate(moved.server.certificate).checkIP('192.168.1.77')).toBeDefined();
    }));

  it('never outlives its authority, and is not made anew each time near its end', () =>
    inFolder(async (folder) => {
      const { authority } = await make(folder);
      const [, end] = years(authority);
      const near = end - 30 * day;
      const last = await make(folder, near);
      expect(years(last.server.certificate)[1]).toBe(end);
      expect((await make(folder, near + day)).isNew).toBe(false);
    }));

  it('past its end, or with a clock before its beginning, it is served as it is: entry goes on', () =>
    inFolder(async (folder) => {
      const { server, authority } = await make(folder);
      const [from, end] = years(authority);
      for (const now of [end + day, from - day]) expect((await make(folder, now)).server).toEqual(server);
      await expect(make(folder, end + day, ['192.168.1.77'])).rejects.toThrow('Set the clock');
    }));

  it('is not made by a clock that is plainly wrong', () =>
    inFolder(async (folder) => {
      await expect(make(folder, Date.UTC(1970, 0, 2))).rejects.toThrow('clock is wrong');
    }));

  it('under another name it is refused with words; set aside, a new authority is made', () =>
    inFolder(async (folder) => {
      const { authority } = await make(folder);
      await expect(make(folder, begin, ['192.168.7.2'], 'other.internal')).rejects.toThrow(
        `certificate is for ${host}, not for other.internal`,
      );
      expect(namedAuthority(folder)).toEqual({
        host,
        fingerprint: fingerprintOf(authority),
        until: new Date(years(authority)[1]).toISOString(),
      });
      setAuthorityAside(folder, begin);
      expect(namedAuthority(folder)).toBeNull();
      const next = await make(folder, begin, ['192.168.7.2'], 'other.internal');
      expect(next.authority).not.toBe(authority);
      const aside = readdirSync(join(folder, 'network')).find((name) => name.startsWith('aside-')) ?? '';
      expect(readFileSync(join(folder, 'network', aside, 'authority.pem'), 'utf8')).toBe(authority);
    }));
});

describe('addresses', () => {
  it.each([
    ['192.168.7.2', [192, 168, 7, 2]],
    ['fd00::2', [0xfd, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2]],
    ['::1', [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1]],
    ['fe80::a:b%wlan0', [0xfe, 0x80, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x0a, 0, 0x0b]],
    ['2001:db8:1:2:3:4:5:6', [0x20, 1, 0x0d, 0xb8, 0, 1, 0, 2, 0, 3, 0, 4, 0, 5, 0, 6]],
  ])('%s in bytes', (address, bytes) => expect([...bytesOf(address)]).toEqual(bytes));

  it.each([
    ['172.15.255.255', false],
    ['172.16.0.0', true],
    ['172.31.255.255', true],
    ['172.32.0.0', false],
    ['fbff::1', false],
    ['fdff::1', true],
    ['127.0.0.1', false],
  ])('%s is private: %s (edges of RFC 1918 and RFC 4193)', (address, is) =>
    expect(privateRanges.some((range) => isWithin(address, range))).toBe(is),
  );

  it.skipIf(!hasOpenssl)('constraints longer than 127 bytes are still read by OpenSSL (DER lengths)', () => {
    const der = Buffer.from(nameConstraints(['a'.repeat(40), 'b'.repeat(200)], privateRanges));
    const read = execFileSync('openssl', ['asn1parse', '-inform', 'DER'], { input: der }).toString();
    expect(read).toContain('cont [ 0 ]');
    expect(der.length).toBeGreaterThan(256);
  });
});
