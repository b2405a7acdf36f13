import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { readPrivate, writePrivate } from './private-file.ts';

/** What a person decided about the camp's network. Without it only this computer reaches the book. */
export interface NetworkSettings {
  /** The interface that tablets come over: "wlan0". */
  readonly interface: string;
  /** The host name on the certificate: "ceredin.internal". Fixed for the campaign. */
  readonly name: string;
  /** Whether the router tells tablets this computer's address under that name; else they are given the address. */
  readonly isNameKnown: boolean;
  /** Of https. */
  readonly port: number;
  /** Of the plain page that brings the certificate to tablets. */
  readonly installPort: number;
}

export const defaultHttpsPort = 7443;

export const networkFolder = (dataFolder: string): string => join(dataFolder, 'network');
const settingsFile = (dataFolder: string): string => join(networkFolder(dataFolder), 'network.json');

/** @throws Error with words where the file can't be understood: nothing is opened to a network by a guess */
export function readNetwork(dataFolder: string): NetworkSettings | null {
  const text = readPrivate(settingsFile(dataFolder));
  if (text === null) return null;
  const read = parseSettings(text);
  if (read !== null) return read;
  throw new Error(`${settingsFile(dataFolder)} can not be read. Say it again: firnbook network use.`);
}

export function writeNetwork(dataFolder: string, settings: NetworkSettings): void {
  writePrivate(settingsFile(dataFolder), `${JSON.stringify(settings, null, 1)}\n`);
}

/** Certificate and devices stay, so that the camp can be opened again as it was. */
export function closeNetwork(dataFolder: string): void {
  rmSync(settingsFile(dataFolder), { force: true });
}

/**
 * The full host name a person means: one word gets ".internal", which no public name ever ends in
 * (reserved by ICANN in 2024; from memory).
 *
 * @returns null where it is no host name
 */
export function hostNameOf(said: string): string | null {
  const name = said.trim().toLowerCase();
  const full = name.includes('.') ? name : `${name}.internal`;
  const label = '[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?';
  // It stands in the authority's common name, which has room for 64 characters.
  const isName = full.length <= 50 && new RegExp(`^${label}(\\.${label})+$`).test(full);
  // All figures would be an address in disguise.
  return isName && !/^[\d.]+$/.test(full) ? full : null;
}

/** Null where it can't be understood. */
export function parseSettings(text: string): NetworkSettings | null {
  try {
    const read = JSON.parse(text) as Partial<NetworkSettings>;
    const { interface: named, name, isNameKnown, port, installPort } = read;
    if (typeof named !== 'string' || typeof name !== 'string' || hostNameOf(name) !== name) return null;
    if (typeof isNameKnown !== 'boolean' || !isPort(port) || !isPort(installPort)) return null;
    return { interface: named, name, isNameKnown, port, installPort };
  } catch {
    return null;
  }
}

const isPort = (value: unknown): value is number =>
  typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= 65535;
