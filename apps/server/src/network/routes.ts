import { createHmac, randomBytes } from 'node:crypto';
import { possessionText } from '@firnbook/journal';
import { verifyEd25519 } from '@firnbook/storage/sqlite';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { complain } from '../answers.ts';
import type { Campaigns } from '../campaigns.ts';
import { doorOf } from '../doors.ts';
import { credentialIn, giveCredential } from './credential.ts';
import type { DeviceRecord, Devices } from './devices.ts';
import type { CampNetwork } from './open.ts';
import { openPairing } from './pairing.ts';
import { drawQr } from './qr.ts';
import { countWrote, heldOf, type Wrote } from './wrote.ts';

interface OfDevice {
  Params: { id: string };
}
interface Pairs {
  Body: unknown;
}

/** A key, and the signature that shows it to be the device's own. */
interface ShownKey {
  readonly publicKey: string;
  readonly proof: string;
}

const longestName = 40;

/** Pairing, and the list of devices. */
export function serveDevices(
  app: FastifyInstance,
  devices: Devices | null,
  network: CampNetwork,
  campaigns: Campaigns,
): void {
  const pairing = openPairing();
  const wrote = countOnce(campaigns);
  const secret = randomBytes(32);
  /** Each device's own, and another one after each start: a signature over it is of no use to anybody else. */
  const challengeOf = (id: string): string => createHmac('sha256', secret).update(id).digest('base64url');

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
      publicKey: found?.publicKey ?? null,
      challenge: isPaired ? challengeOf(found.id) : null,
    });
  });

  app.post<Pairs>('/api/device/key', { config: { policy: 'crew writes' } }, async (request, reply) => {
    const where = 'the key of a device';
    if (devices === null) return unreadable(reply);
    const found = doorOf(request) === 'here' ? null : devices.find(credentialIn(request) ?? '');
    if (found === null)
      return complain(reply, 409, {
        what: 'The camp computer itself is in no list of devices',
        where,
        mend: 'There is nothing to do.',
      });
    const { publicKey, proof, ...more } = (request.body ?? {}) as Partial<ShownKey>;
    const shown = Object.keys(more).length > 0 ? null : readKey(publicKey, proof);
    if (shown === null || shown === 'none')
      return complain(reply, 400, {
        what: 'The request shows no key',
        where,
        mend: 'Send publicKey, 32 bytes, and proof, 64 bytes, in base64url.',
      });
    if (!isOwn(shown, challengeOf(found.id))) return foreignKey(reply, where);
    if (devices.tellKey(found.id, shown.publicKey) === 'kept') return fresh(reply).send({});
    return complain(reply, 409, {
      what: 'The camp computer knows this device under another key',
      where,
      mend: 'If its browser lost its storage, revoke it under Devices on the camp computer, and pair it again.',
    });
  });

  app.get('/api/devices', { config: { policy: 'crew reads' } }, async (_request, reply) =>
    devices === null ? unreadable(reply) : fresh(reply).send(devices.list()),
  );

  app.get('/api/devices/entries', { config: { policy: 'crew reads' } }, async (_request, reply) =>
    devices === null ? unreadable(reply) : fresh(reply).send(wrote(devices.list())),
  );

  app.post<OfDevice>(
    '/api/devices/:id/revoke',
    { config: { policy: 'camp computer' } },
    async ({ params: { id } }, reply) => {
      if (devices === null) return unreadable(reply);
      const key = devices.list().find((one) => one.id === id)?.publicKey ?? null;
      const here = [...campaigns.open.values()];
      const held =
        key === null
          ? null
          : Object.fromEntries(
              here.map(({ id: campaign, replica }) => [campaign, heldOf(replica.ledger, key)]),
            );
      if (devices.revoke(id, held)) return fresh(reply).send({ id });
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
    if (wanted.shown !== 'none' && !isOwn(wanted.shown, wanted.secret)) return foreignKey(reply, where);
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
      const key = wanted.shown === 'none' ? null : wanted.shown.publicKey;
      const { device, credential } = devices.add(wanted.name, key);
      return giveCredential(fresh(reply).code(201), credential).send({ id: device.id, name: device.name });
    } catch (error) {
      pairing.giveBack(wanted.secret);
      throw error;
    }
  });
}

interface Wanted {
  readonly secret: string;
  readonly name: string;
  readonly shown: ShownKey | 'none';
}

function readWanted(body: unknown): Wanted | null {
  const { secret, name, publicKey, proof, ...more } = (body ?? {}) as Partial<Record<string, unknown>>;
  // What we don't know we don't guess at.
  if (Object.keys(more).length > 0) return null;
  if (typeof secret !== 'string' || typeof name !== 'string' || secret.length > 100) return null;
  const shown = readKey(publicKey, proof);
  if (shown === null) return null;
  const trimmed = name.trim();
  // A name is printed in terminals: nothing that steers them, and no half of a sign.
  const isPlain = !/[\p{C}]/u.test(trimmed);
  return isPlain && trimmed !== '' && trimmed.length <= longestName ? { secret, name: trimmed, shown } : null;
}

/** 'none' where neither was sent: a browser may have no such key. Null for what can't be one. */
function readKey(publicKey: unknown, proof: unknown): ShownKey | 'none' | null {
  if (publicKey === undefined && proof === undefined) return 'none';
  if (typeof publicKey !== 'string' || typeof proof !== 'string') return null;
  // The last letter's spare bits are 0, so that one key has one text.
  if (!/^[\w-]{42}[AEIMQUYcgkosw048]$/.test(publicKey) || !/^[\w-]{85}[AQgw]$/.test(proof)) return null;
  return { publicKey, proof };
}

const isOwn = ({ publicKey, proof }: ShownKey, challenge: string): boolean =>
  verifyEd25519(publicKey, proof, possessionText(challenge));

function foreignKey(reply: FastifyReply, where: string): FastifyReply {
  return complain(reply, 403, {
    what: 'This device did not show that the key is its own',
    where,
    mend: 'Load the page again. If it happens again, let somebody look at that device.',
  });
}

/** What each device wrote in each campaign; counted anew where entries came or the list changed. */
function countOnce(campaigns: Campaigns) {
  const counted = new Map<string, { readonly at: string; readonly wrote: readonly Wrote[] }>();
  return (list: readonly DeviceRecord[]) => {
    const state = list.map(({ id, publicKey, revokedAt }) => `${id} ${publicKey} ${revokedAt}`).join();
    return [...campaigns.open.values()].flatMap(({ id, replica, title }) => {
      const at = `${replica.ledger.size} ${state}`;
      let one = counted.get(id);
      if (one?.at !== at) counted.set(id, (one = { at, wrote: countWrote(id, replica.ledger, list) }));
      const { name } = title();
      return one.wrote.map((line) => ({ campaign: id, name, ...line }));
    });
  };
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
