import { X509Certificate } from 'node:crypto';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import type { Identity } from './authority.ts';
import { readPrivate, writePrivate } from './private-file.ts';
import { networkFolder } from './settings.ts';

/** What the server speaks https with. */
export interface Certificates {
  /** PEM of the camp's authority: what tablets install. */
  readonly authority: string;
  readonly server: Identity;
  /** Whether the server's certificate was made just now. */
  readonly isNew: boolean;
}

const day = 86_400_000;
/** Renewed while a tablet with a clock a year fast still takes the old one. */
const spareDays = 380;
/** A clock before this is wrong, and a certificate dated by it would be no good. */
const earliest = Date.UTC(2025, 0, 1);

/**
 * The camp's certificates from the data folder, made or renewed where they must be. The authority is made once: every
 * tablet holds it.
 *
 * @param addresses of the interface now
 * @throws Error with words where the authority is for another name, or this computer's clock is wrong
 */
export async function campCertificates(
  dataFolder: string,
  host: string,
  addresses: readonly string[],
  now: number,
): Promise<Certificates> {
  if (now < earliest) throw new Error("This computer's clock is wrong. Set it; certificates carry dates.");
  // Loaded when a network is opened: a book for this computer alone starts without it.
  const { makeAuthority, issueCertificate } = await import('./authority.ts');
  const own = readIdentity(dataFolder, 'authority');
  const authority = own ?? (await makeAuthority(host, addresses, now));
  if (own === null) writeIdentity(dataFolder, 'authority', authority);
  if (authorityName(authority.certificate) !== host)
    throw new Error(
      `The tablets' certificate is for ${authorityName(authority.certificate)}, not for ${host}. Take that name again, or make a new one: firnbook network use --new-authority.`,
    );
  const there = readIdentity(dataFolder, 'server');
  const isDated = isWithinDates(authority.certificate, now);
  if (
    there !== null &&
    (isDated ? isFit(there, authority, host, addresses, now) : isFor(there, host, addresses))
  )
    return { authority: authority.certificate, server: there, isNew: false };
  if (!isDated)
    throw new Error(
      "By this computer's clock the camp's certificate is not valid now. Set the clock; if it is right: firnbook network use --new-authority.",
    );
  const server = await issueCertificate(authority, host, addresses, now);
  writeIdentity(dataFolder, 'server', server);
  return { authority: authority.certificate, server, isNew: true };
}

/** PEM of the camp's authority as it lies there; null before it is made. */
export const campAuthority = (dataFolder: string): string | null =>
  readPrivate(filesOf(dataFolder, 'authority').certificate);

/** The host name that the camp's authority was made for; null before there is one. */
export function namedAuthority(
  dataFolder: string,
): { readonly host: string; readonly fingerprint: string; readonly until: string } | null {
  const pem = campAuthority(dataFolder);
  if (pem === null) return null;
  const { fingerprint256, validTo } = new X509Certificate(pem);
  return { host: authorityName(pem), fingerprint: fingerprint256, until: new Date(validTo).toISOString() };
}

/** Sets a camp's authority aside, so that the next one is made anew; every tablet then needs that one. */
export function setAuthorityAside(dataFolder: string, now: number): void {
  const stamp = new Date(now).toISOString().replace(/[:.]/g, '-');
  for (const file of ['authority.pem', 'authority.key.pem', 'server.pem', 'server.key.pem']) {
    const path = join(networkFolder(dataFolder), file);
    const text = readPrivate(path);
    if (text === null) continue;
    writePrivate(join(networkFolder(dataFolder), `aside-${stamp}`, file), text);
  }
  removeIdentities(dataFolder);
}

/** SHA-256 of a certificate, as systems show it: "AB:CD:…". */
export function fingerprintOf(pem: string): string {
  return new X509Certificate(pem).fingerprint256;
}

/** Good for this name and these addresses, under this authority, and for a while yet. */
function isFit(
  server: Identity,
  authority: Identity,
  host: string,
  addresses: readonly string[],
  now: number,
): boolean {
  const certificate = new X509Certificate(server.certificate);
  const issuer = new X509Certificate(authority.certificate);
  return (
    isFor(server, host, addresses) &&
    certificate.checkIssued(issuer) &&
    Date.parse(certificate.validFrom) < now &&
    // One that ends with its authority can't be made longer.
    Date.parse(certificate.validTo) >= Math.min(now + spareDays * day, Date.parse(issuer.validTo))
  );
}

function isFor(server: Identity, host: string, addresses: readonly string[]): boolean {
  const certificate = new X509Certificate(server.certificate);
  return (
    certificate.checkHost(host) !== undefined &&
    addresses.every((address) => certificate.checkIP(address) !== undefined)
  );
}

function isWithinDates(pem: string, now: number): boolean {
  const { validFrom, validTo } = new X509Certificate(pem);
  return Date.parse(validFrom) < now && now < Date.parse(validTo);
}

/** The host name that an authority was made for. */
export const authorityName = (pem: string): string =>
  /CN=Firnbook camp (\S+)/.exec(new X509Certificate(pem).subject)?.[1] ?? 'another name';

const filesOf = (dataFolder: string, what: 'authority' | 'server') => ({
  certificate: join(networkFolder(dataFolder), `${what}.pem`),
  key: join(networkFolder(dataFolder), `${what}.key.pem`),
});

function readIdentity(dataFolder: string, what: 'authority' | 'server'): Identity | null {
  const files = filesOf(dataFolder, what);
  const certificate = readPrivate(files.certificate);
  const key = readPrivate(files.key);
  return certificate === null || key === null ? null : { certificate, key };
}

/** The key first: a certificate without its key is made anew, a key without its certificate is of no use to anybody. */
function writeIdentity(dataFolder: string, what: 'authority' | 'server', identity: Identity): void {
  const files = filesOf(dataFolder, what);
  writePrivate(files.key, identity.key);
  writePrivate(files.certificate, identity.certificate);
}

function removeIdentities(dataFolder: string): void {
  for (const what of ['authority', 'server'] as const) {
    const files = filesOf(dataFolder, what);
    rmSync(files.certificate, { force: true });
    rmSync(files.key, { force: true });
  }
}
