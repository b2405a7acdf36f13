import { hostname, networkInterfaces } from 'node:os';
import type { FastifyRequest } from 'fastify';
import type { Complaint } from './answers.ts';

/**
 * The names under which a browser may have reached this server, lower case. A page of a stranger that points its
 * own name at this address (DNS rebinding) comes with a name that isn't among them.
 *
 * @param host the address it listens on; a wildcard means every address of this computer
 */
export function ownNames(host: string, more: readonly string[]): ReadonlySet<string> {
  const names = ['127.0.0.1', 'localhost', '[::1]', ...more];
  if (host === '0.0.0.0' || host === '::') {
    names.push(hostname());
    for (const address of Object.values(networkInterfaces()).flat())
      if (address !== undefined) names.push(bracketed(address.address));
  } else names.push(bracketed(host));
  return new Set(names.map((name) => name.toLowerCase()));
}

/** Refuses a request that came under a name that isn't ours; null lets it in. */
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
  const own = origin === undefined || origin === `http://${host}` || origin === `https://${host}`;
  if (own && (site === undefined || site === 'same-origin' || site === 'none')) return null;
  return {
    what: 'A page of another origin may not write here',
    where: 'the Origin header',
    mend: 'Open the book at the address that the server printed at its start.',
  };
}

/** The name in a Host header without its port, lower case. */
function nameOf(host: string | undefined): string | null {
  const name = /^(\[[0-9a-f:.]+\]|[^:/@\s]+)(?::\d{1,5})?$/i.exec(host ?? '')?.[1];
  return name === undefined ? null : name.toLowerCase();
}

function bracketed(address: string): string {
  return address.includes(':') ? `[${address.replace(/%.*$/, '')}]` : address;
}
