import type { FastifyInstance, FastifyReply } from 'fastify';
import { complain } from '../answers.ts';
import { doorOf } from '../doors.ts';
import { credentialIn, giveCredential } from './credential.ts';
import type { Devices } from './devices.ts';
import type { CampNetwork } from './open.ts';
import { openPairing } from './pairing.ts';
import { drawQr } from './qr.ts';

interface OfDevice {
  Params: { id: string };
}
interface Pairs {
  Body: unknown;
}

const longestName = 40;

/** Pairing, and the list of devices. */
export function serveDevices(app: FastifyInstance, devices: Devices | null, network: CampNetwork): void {
  const pairing = openPairing();

  app.get('/api/device', { config: { policy: 'anyone' } }, async (request, reply) => {
    const isHere = doorOf(request) === 'here';
    const credential = credentialIn(request);
    const found = isHere || credential === null ? null : (devices?.find(credential) ?? null);
    const isPaired = found !== null && found.revokedAt === null;
    if (isPaired && credential !== null) giveCredential(reply, credential);
    return fresh(reply).send({
      isHere,
      name: found?.name ?? null,
      isPaired,
      isRevoked: found !== null && !isPaired,
    });
  });

  app.get('/api/devices', { config: { policy: 'crew reads' } }, async (_request, reply) =>
    devices === null ? unreadable(reply) : fresh(reply).send(devices.list()),
  );

  app.post<OfDevice>(
    '/api/devices/:id/revoke',
    { config: { policy: 'camp computer' } },
    async ({ params: { id } }, reply) => {
      if (devices === null) return unreadable(reply);
      if (devices.revoke(id)) return fresh(reply).send({ id });
      return complain(reply, 404, {
        what: 'There is no such device, or it was revoked before',
        where: `device ${id.slice(0, 80)}`,
        mend: 'Look at the list of devices.',
      });
    },
  );

  app.post('/api/pairing/offers', { config: { policy: 'camp computer' } }, async (_request, reply) => {
    if (devices === null) return unreadable(reply);
    const open = network.state();
    if (open.address === null)
      return complain(reply, 409, {
        what: open.trouble?.what ?? 'The camp network is not open: no interface was named',
        where: 'the camp computer',
        mend: open.trouble?.mend ?? 'In a terminal: firnbook network lists what there is.',
      });
    const { token, code, until } = pairing.offer();
    // Behind the #: it goes to the page and over no network.
    const authority = open.fingerprint.replaceAll(':', '');
    const url = `${open.address}/pair#token=${token}&authority=${authority}`;
    return fresh(reply)
      .code(201)
      .send({
        address: open.address,
        installAddress: open.installAddress,
        fingerprint: open.fingerprint,
        url,
        code,
        until: new Date(until).toISOString(),
        qr: drawQr(url),
        installQr: drawQr(open.installAddress),
      });
  });

  app.post<Pairs>('/api/pairing', { config: { policy: 'anyone' } }, async (request, reply) => {
    const where = 'pairing';
    if (doorOf(request) === 'here')
      return complain(reply, 409, {
        what: 'The camp computer itself needs no pairing',
        where,
        mend: 'Open the book on it as it is.',
      });
    if (devices === null) return unreadable(reply);
    const wanted = readWanted(request.body);
    if (wanted === null)
      return complain(reply, 400, {
        what: 'The request names no code and device',
        where,
        mend: `Send a secret and a name of at most ${longestName} characters.`,
      });
    const tried = pairing.take(wanted.secret, request.ip);
    if (tried === 'too often')
      return complain(reply, 429, {
        what: 'Too many wrong codes',
        where,
        mend: 'Wait a minute, then scan a new code.',
      });
    if (tried === 'wrong')
      return complain(reply, 403, {
        what: 'This code is not good: it was used, it is older than ten minutes, or it was mistyped',
        where,
        mend: 'Let the camp computer show a new one.',
      });
    try {
      const { device, credential } = devices.add(wanted.name);
      return giveCredential(fresh(reply).code(201), credential).send({ id: device.id, name: device.name });
    } catch (error) {
      pairing.giveBack(wanted.secret);
      throw error;
    }
  });
}

function readWanted(body: unknown): { readonly secret: string; readonly name: string } | null {
  const { secret, name, ...more } = (body ?? {}) as { secret?: unknown; name?: unknown };
  // What we don't know we don't guess at.
  if (Object.keys(more).length > 0) return null;
  if (typeof secret !== 'string' || typeof name !== 'string' || secret.length > 100) return null;
  const trimmed = name.trim();
  // A name is printed in terminals: nothing that steers them, and no half of a sign.
  const isPlain = !/[\p{C}]/u.test(trimmed);
  return isPlain && trimmed !== '' && trimmed.length <= longestName ? { secret, name: trimmed } : null;
}

function unreadable(reply: FastifyReply): FastifyReply {
  return complain(reply, 503, {
    what: 'The list of devices can not be read',
    where: 'the camp computer',
    mend: 'Look at the lines that the server printed at its start.',
  });
}

function fresh(reply: FastifyReply): FastifyReply {
  return reply.header('cache-control', 'no-store');
}
