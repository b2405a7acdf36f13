import { networkInterfaces } from 'node:os';

/** An interface of this computer through which others may come. */
export interface NetworkInterface {
  /** "wlan0" */
  readonly name: string;
  /** Without those that hold on one cable only (fe80::). */
  readonly addresses: readonly string[];
}

/** Interfaces that have an address now; never the computer's own loop. */
export function listInterfaces(): readonly NetworkInterface[] {
  return Object.entries(networkInterfaces())
    .filter(([, addresses]) => addresses?.some(({ internal }) => !internal))
    .map(([name]) => ({ name, addresses: addressesOf(name) }))
    .filter(({ addresses }) => addresses.length > 0);
}

/**
 * Empty while the interface is off, or has no address yet. IPv6 alone where there is no IPv4: systems change their
 * IPv6 addresses by themselves, and a tablet's book hangs on the address.
 */
export function addressesOf(name: string): readonly string[] {
  const all = (networkInterfaces()[name] ?? []).filter(({ address }) => !/^fe80:/i.test(address));
  const four = all.filter(({ family }) => family === 'IPv4');
  return (four.length > 0 ? four : all).map(({ address }) => address);
}
