import type { FastifyInstance, FastifyRequest } from 'fastify';
import type { Complaint } from './answers.ts';
import { strangeHost, strangeOrigin } from './doors.ts';

/**
 * Who may use a route and what it does. Every route names its policy when it is made; one without is refused
 * at start-up, so nothing is open by oversight.
 *
 * - `anyone`: tells nothing about a campaign.
 * - `crew reads`, `crew writes`: those who can reach the camp computer. Until devices are paired that is whoever
 *   gets past the doors: the address it is bound to (this computer alone unless asked otherwise), its own name,
 *   and for writes a page of its own.
 */
type Policy = 'anyone' | 'crew reads' | 'crew writes';

const policies: readonly Policy[] = ['anyone', 'crew reads', 'crew writes'];

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

/** Status and words of a refusal, or null to let the request in. */
export function refuse(
  request: FastifyRequest,
  names: ReadonlySet<string>,
): { readonly status: number; readonly complaint: Complaint } | null {
  const stranger = strangeHost(request, names);
  if (stranger !== null) return { status: 421, complaint: stranger };
  const policy = request.routeOptions.config.policy;
  // Addresses that no route has are answered by the not-found handler, which tells nothing.
  const reads = request.method === 'GET' || request.method === 'HEAD';
  if (policy === 'crew writes' || !reads) {
    const page = strangeOrigin(request);
    if (page !== null) return { status: 403, complaint: page };
  }
  return null;
}
