import { X509Certificate } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { complain } from '../answers.ts';
import { fingerprintOf } from './certificates.ts';
import { installerPage, installerStyle } from './installer-page.ts';
import type { CampNetwork } from './open.ts';

/**
 * What plain http on the camp's network gives: the certificate, the page that says how to install it, and the way to
 * https. Nothing of a campaign, and nothing is taken in.
 */
export function serveInstaller(app: FastifyInstance, network: CampNetwork): void {
  const anyone = { config: { policy: 'anyone' } } as const;

  app.get('/', anyone, async (_request, reply) => {
    const { address, authority } = network.state();
    if (address === null || authority === null) return complain(reply, 503, closed);
    return reply
      .header('cache-control', 'no-store')
      .type('text/html; charset=utf-8')
      .send(installerPage(address, fingerprintOf(authority)));
  });

  app.get('/install.css', anyone, async (_request, reply) =>
    reply.header('cache-control', 'no-cache').type('text/css; charset=utf-8').send(installerStyle),
  );

  app.get('/firnbook-camp.crt', anyone, async (_request, reply) => {
    const { authority } = network.state();
    if (authority === null) return complain(reply, 503, closed);
    return reply
      .header('cache-control', 'no-store')
      .header('content-disposition', 'attachment; filename="firnbook-camp.crt"')
      .type('application/x-x509-ca-cert')
      .send(Buffer.from(new X509Certificate(authority).raw));
  });

  app.get('/*', anyone, async (request, reply) => {
    const { address } = network.state();
    if (address === null) return complain(reply, 503, closed);
    // The path alone: whatever else stood in the address went over the network in plain.
    const path = (request.url.split('?', 1)[0] ?? '').replace(/^\/+/, '');
    return reply.header('cache-control', 'no-store').redirect(`${address}/${path}`, 307);
  });
}

const closed = {
  what: 'The camp network is just being opened or closed',
  where: 'the camp computer',
  mend: 'Try again in a few seconds.',
};
