import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Complaint } from './answers.ts';
import { type Door, doorOf, namesHere, strangeHost, strangeOrigin } from './doors.ts';
import { credentialIn } from './network/credential.ts';
import type { DeviceRecord, Devices } from './network/devices.ts';

/**
 * Who may use a route and what it does. Every route names its policy when it is made; one without is refused
 * at start-up, so nothing is open by oversight.
 *
 * - `anyone`: tells nothing about a campaign.
 * - `crew reads`, `crew writes`: the camp computer itself; over the network a device that was paired and not revoked.
 * - `camp computer`: the camp computer itself and no device.
 */
type Policy = 'anyone' | 'crew reads' | 'crew writes' | 'camp computer';

const policies: readonly Policy[] = ['anyone', 'crew reads', 'crew writes', 'camp computer'];

declare module 'fastify' {
  interface FastifyContextConfig {
    policy?: Policy;
  }
}

/** Makes every later route of the server name its policy. */
export function holdToPolicies(app: FastifyInstance): void {
  app.addHook('onRoute', (route) => {
    const policy = route.config?.policy;
    if (policy === undefined || !policies.includes(policy))
      throw new Error(`Route ${String(route.method)} ${route.url} has no policy: see policy.ts`);
  });
}

/** What decides who comes in. */
export interface Gate {
  /** Names of this computer on the camp's network. */
  readonly namesOnNetwork: () => ReadonlySet<string>;
  /** Null where the list of devices can't be read: then none comes in. */
  readonly devices: Devices | null;
}

/** A complaint with the reason in a word, for the screens of the device that was refused. */
interface Refusal extends Complaint {
  readonly why?: 'not paired' | 'revoked';
}

/** Let in or refused, and the device that asked, where it is a paired one. */
export interface Verdict {
  readonly refused: { readonly status: number; readonly complaint: Refusal } | null;
  readonly device: DeviceRecord | null;
}

export function judge(request: FastifyRequest, gate: Gate): Verdict {
  const door = doorOf(request);
  const device = door === 'here' ? null : (gate.devices?.find(credentialIn(request) ?? '') ?? null);
  const refused = strange(request, door, gate) ?? unwelcome(request, door, device);
  return { refused, device: device?.revokedAt === null ? device : null };
}

function strange(request: FastifyRequest, door: Door, gate: Gate): Verdict['refused'] {
  const host = strangeHost(request, door === 'here' ? namesHere : gate.namesOnNetwork());
  if (host !== null) return { status: 421, complaint: host };
  const reads = request.method === 'GET' || request.method === 'HEAD';
  const page = reads ? null : strangeOrigin(request);
  return page === null ? null : { status: 403, complaint: page };
}

function unwelcome(request: FastifyRequest, door: Door, device: DeviceRecord | null): Verdict['refused'] {
  const { policy } = request.routeOptions.config;
  // Addresses that no route has are answered by the not-found handler, which tells nothing.
  if (door === 'here' || policy === undefined || policy === 'anyone') return null;
  const where = 'the camp computer';
  if (device === null)
    return {
      status: 401,
      complaint: {
        what: 'This device is not paired with the camp computer',
        where,
        mend: 'Pair it: open Devices on the camp computer, and scan what it shows.',
        why: 'not paired',
      },
    };
  if (device.revokedAt !== null)
    return {
      status: 401,
      complaint: {
        what: 'This device was revoked',
        where,
        mend: 'What it holds stays on it. If that was a mistake, pair it again at the camp computer.',
        why: 'revoked',
      },
    };
  if (policy === 'camp computer')
    return {
      status: 403,
      complaint: {
        what: 'This is done at the camp computer itself',
        where,
        mend: 'Go to the camp computer, or use its command line.',
      },
    };
  return null;
}
