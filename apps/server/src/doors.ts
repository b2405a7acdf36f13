import type { TLSSocket } from 'node:tls';
import type { FastifyRequest } from 'fastify';
import type { Complaint } from './answers.ts';

/**
 * Through which door a request came: from this computer itself (plain http, bound to 127.0.0.1 and to nothing else),
 * or over the camp's network (https, once a person named an interface).
 */
export type Door = 'here' | 'network';

export function doorOf(request: FastifyRequest): Door {
  return (request.raw.socket as Partial<TLSSocket>).encrypted === true ? 'network' : 'here';
}

/** Names under which a browser on this computer reaches it. */
export const namesHere: ReadonlySet<string> = new Set(['127.0.0.1', 'localhost', '[::1]']);

/** The names of a computer on a network, as a Host header gives them. */
export function namesOn(host: string, addresses: readonly string[]): ReadonlySet<string> {
  return new Set([host, ...addresses.map(bracketed)].map((name) => name.toLowerCase()));
}

/**
 * Refuses a request that came under a name that isn't ours; null lets it in. A page of a stranger that points its own
 * name at this address (DNS rebinding) comes with a name that isn't among them.
 */
export function strangeHost(request: FastifyRequest, names: ReadonlySet<string>): Complaint | null {
  const name = nameOf(request.headers.host);
  if (name !== null && names.has(name)) return null;
  return {
    what: `This server is not known as ${name ?? 'nothing at all'}`,
    where: 'the Host header',
    mend: 'Use the address that the server printed at its start.',
  };
}

/**
 * Refuses a write that a page of another origin sent. A browser names the origin with every such request; the
 * command line doesn't, and has no cookies or rights of somebody else to lend.
 */
export function strangeOrigin(request: FastifyRequest): Complaint | null {
  const { origin, host } = request.headers;
  const site = request.headers['sec-fetch-site'];
  const scheme = doorOf(request) === 'here' ? 'http' : 'https';
  const own = origin === undefined || origin === `${scheme}://${host}`;
  if (own && (site === undefined || site === 'same-origin' || site === 'none')) return null;
  return {
    what: 'A page of another origin may not write here',
    where: 'the Origin header',
    mend: 'Open the book at the address that the server printed at its start.',
  };
}

/** An address as it stands in a URL. */
export function bracketed(address: string): string {
  return address.includes(':') ? `[${address.replace(/%.*$/, '')}]` : address;
}

/** The name in a Host header without its port, lower case. */
function nameOf(host: string | undefined): string | null {
  const name = /^(\[[0-9a-f:.]+\]|[^:/@\s]+)(?::\d{1,5})?$/i.exec(host ?? '')?.[1];
  return name === undefined ? null : name.toLowerCase();
}
