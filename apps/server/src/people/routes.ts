import { isPinLike, type PinProblem, pinProblem } from '@firnbook/campaign';
import type { FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { type Complaint, complain } from '../answers.ts';
import type { Campaigns } from '../campaigns.ts';
import { doorOf } from '../doors.ts';
import { credentialIn } from '../network/credential.ts';
import type { Devices } from '../network/devices.ts';
import type { From, Pins, Refused } from './pins.ts';

interface OfCampaign {
  Params: { id: string };
}
interface OfPerson {
  Params: { id: string; person: string };
  Body: unknown;
}

/** A PIN and the one before it. */
const bodyBytes = 1024;

/** Who has a PIN, whether one is right, a new one, and none: the record knows nothing of it. */
export function servePins(
  app: FastifyInstance,
  pins: Pins | null,
  campaigns: Campaigns,
  devices: Devices | null,
): void {
  const askedBy = (request: FastifyRequest): From =>
    doorOf(request) === 'here' ? 'here' : (devices?.find(credentialIn(request) ?? '')?.id ?? 'unknown');

  app.get<OfCampaign>(
    '/api/campaigns/:id/pins',
    { config: { policy: 'crew reads' } },
    async ({ params: { id } }, reply) => {
      if (!campaigns.open.has(id)) return unknownCampaign(reply, id);
      if (pins === null) return unreadable(reply);
      return fresh(reply).send(pins.list(id));
    },
  );

  app.post<OfPerson>(
    '/api/campaigns/:id/pins/:person/check',
    { config: { policy: 'crew writes' }, bodyLimit: bodyBytes },
    async (request, reply) => {
      const { id, person } = request.params;
      if (!campaigns.open.has(id)) return unknownCampaign(reply, id);
      if (pins === null) return unreadable(reply);
      const given = readGiven(request.body);
      if (given === null || given.old !== null || !isPinLike(given.pin)) return noPin(reply, person);
      const tried = await pins.check({ campaign: id, person }, given.pin, askedBy(request));
      return tried.is === 'right' ? fresh(reply).send({ setAt: tried.setAt }) : refuse(reply, tried, person);
    },
  );

  app.post<OfPerson>(
    '/api/campaigns/:id/pins/:person',
    { config: { policy: 'crew writes' }, bodyLimit: bodyBytes },
    async (request, reply) => {
      const { id, person } = request.params;
      const campaign = campaigns.open.get(id);
      if (campaign === undefined) return unknownCampaign(reply, id);
      if (pins === null) return unreadable(reply);
      const given = readGiven(request.body);
      if (given === null || (given.old !== null && !isPinLike(given.old))) return noPin(reply, person);
      const problem = pinProblem(given.pin);
      if (problem !== null) return complain(reply, 400, { ...weak[problem], where: placeOf(person) });
      if (campaign.replica.ledger.byId(person)?.header.kind !== 'person.logged')
        return complain(reply, 404, {
          what: 'The camp computer does not know this person yet',
          where: placeOf(person),
          mend: 'Wait until the tablet has sent what it wrote, then choose the PIN.',
        });
      const done = await pins.set({ campaign: id, person }, given.pin, given.old, askedBy(request));
      if (done.is === 'set') return fresh(reply).code(201).send({ setAt: done.setAt });
      if (done.is !== 'set before') return refuse(reply, done, person);
      return complain(reply, 409, {
        what: 'This person has a PIN already',
        where: placeOf(person),
        mend: 'Give it, or have it reset at the camp computer if it was forgotten.',
      });
    },
  );

  app.post<OfPerson>(
    '/api/campaigns/:id/pins/:person/reset',
    { config: { policy: 'camp computer' }, bodyLimit: bodyBytes },
    async ({ params: { id, person } }, reply) => {
      if (!campaigns.open.has(id)) return unknownCampaign(reply, id);
      if (pins === null) return unreadable(reply);
      if (pins.reset({ campaign: id, person })) return fresh(reply).send({ person });
      return complain(reply, 404, {
        what: 'This person has no PIN',
        where: placeOf(person),
        mend: 'Nothing needs to be reset.',
      });
    },
  );
}

const weak: Readonly<Record<PinProblem, Omit<Complaint, 'where'>>> = {
  digits: { what: 'A PIN is digits and nothing else', mend: 'Choose 4 to 12 digits.' },
  short: { what: 'This PIN is too short', mend: 'Choose 4 to 12 digits.' },
  long: { what: 'This PIN is too long', mend: 'Choose 4 to 12 digits.' },
  common: {
    what: 'This PIN is one of those that are tried first',
    mend: 'Choose one without a run and without the same digits again and again.',
  },
};

function refuse(reply: FastifyReply, refused: Refused, person: string): FastifyReply {
  const where = placeOf(person);
  if (refused.is === 'wrong')
    return complain(reply, 403, { what: 'This PIN is wrong', where, mend: 'Try again, or have it reset.' });
  if (refused.is === 'busy')
    return complain(reply.header('retry-after', 5), 503, {
      what: 'Too many PINs are being checked',
      where,
      mend: 'Try again in a few seconds.',
    });
  const seconds = Math.ceil(refused.wait / 1000);
  return complain(reply.header('retry-after', seconds), 429, {
    what: 'Too many wrong PINs for this person',
    where,
    mend: `Wait ${seconds} s here, or give the PIN at the camp computer. Everybody else can go on.`,
  });
}

interface Given {
  readonly pin: string;
  readonly old: string | null;
}

function readGiven(body: unknown): Given | null {
  if (typeof body !== 'object' || body === null) return null;
  const { pin, old = null, ...more } = body as { pin?: unknown; old?: unknown };
  // What we don't know we don't guess at.
  if (Object.keys(more).length > 0 || typeof pin !== 'string') return null;
  return old === null || typeof old === 'string' ? { pin, old } : null;
}

function noPin(reply: FastifyReply, person: string): FastifyReply {
  return complain(reply, 400, {
    what: 'The request gives no PIN',
    where: placeOf(person),
    mend: 'Send 4 to 12 digits, and nothing else.',
  });
}

function unknownCampaign(reply: FastifyReply, id: string): FastifyReply {
  return complain(reply, 404, {
    what: 'There is no such campaign here',
    where: `campaign ${id.slice(0, 80)}`,
    mend: 'Look at the list of campaigns.',
  });
}

function unreadable(reply: FastifyReply): FastifyReply {
  return complain(reply, 503, {
    what: 'The list of PINs can not be read',
    where: 'the camp computer',
    mend: 'Look at the lines that the server printed at its start. Logging goes on without.',
  });
}

const placeOf = (person: string): string => `person ${person.slice(0, 80)}`;

function fresh(reply: FastifyReply): FastifyReply {
  return reply.header('cache-control', 'no-store');
}
