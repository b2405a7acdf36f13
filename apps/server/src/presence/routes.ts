import { join } from 'node:path';
import { campaignPaths } from '@firnbook/storage/sqlite';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { complain } from '../answers.ts';
import type { Campaigns } from '../campaigns.ts';
import { doorOf } from '../doors.ts';
import { credentialIn } from '../network/credential.ts';
import type { Devices } from '../network/index.ts';
import { campItself, openSeen, type Seen } from './seen.ts';
import { maySpeak, statedKeys } from './speaker.ts';
import { readState } from './state.ts';

interface OfCampaign {
  Params: { id: string };
}

/** Far more than a state needs. */
const stateBytes = 4096;

/** Which devices came, when, and what they said of themselves; none of it goes into the record. */
export function servePresence(
  app: FastifyInstance,
  dataFolder: string,
  campaigns: Campaigns,
  devices: Devices | null,
  log: (line: string) => void,
): void {
  const keyOf = statedKeys();
  const seen = new Map<string, Seen>();
  app.addHook('onClose', async () => {
    for (const one of seen.values()) one.close();
  });

  /** Null where this computer has no such campaign open. */
  const seenOf = (id: string): Seen | null => {
    if (!campaigns.open.has(id)) return null;
    let one = seen.get(id);
    if (one === undefined) {
      one = openSeen(join(campaignPaths(dataFolder, id).folder, 'presence.json'), log);
      seen.set(id, one);
    }
    return one;
  };

  app.get<OfCampaign>(
    '/api/campaigns/:id/presence',
    { config: { policy: 'crew reads' } },
    async ({ params: { id } }, reply) => {
      const one = seenOf(id);
      if (one === null) return unknown(reply, id);
      // As an age: the clock of the device that asks may be wrong. Never negative, where this one was set back.
      const now = Date.now();
      const devices = one
        .list()
        .map(({ seenAt, pairing, ...state }) => ({ ...state, ago: Math.max(0, now - Date.parse(seenAt)) }));
      return fresh(reply).send(devices);
    },
  );

  app.post<OfCampaign>(
    '/api/campaigns/:id/presence',
    { config: { policy: 'crew writes' }, bodyLimit: stateBytes },
    async (request, reply) => {
      const { params, body } = request;
      const { id } = params;
      const one = seenOf(id);
      const campaign = campaigns.open.get(id);
      if (one === null || campaign === undefined) return unknown(reply, id);
      const where = `campaign ${id}`;
      const state = readState(body);
      if ('problem' in state)
        return complain(reply, 400, {
          what: `What the device says of itself can not be read: ${state.problem}`,
          where,
          mend: 'Load the page again, so that both sides are of one version.',
        });
      const speaker =
        doorOf(request) === 'here' ? null : (devices?.find(credentialIn(request) ?? '') ?? null);
      const stated = keyOf(campaign.replica.ledger, state.device);
      if (!maySpeak(speaker, one.pairingOf(state.device), devices?.list() ?? [], stated))
        return complain(reply, 403, {
          what: 'Another device speaks under this name',
          where,
          mend: 'Its entries are taken all the same. If this browser is that device, revoke its old line under Devices on the camp computer, and pair it again.',
        });
      if (!one.note(state, speaker?.id ?? campItself))
        return complain(reply, 429, {
          what: 'There are too many devices to keep an eye on another one',
          where,
          mend: 'Its entries are taken all the same. Look at the list of devices for ones that do not belong here.',
        });
      return fresh(reply).send({});
    },
  );
}

function unknown(reply: FastifyReply, id: string): FastifyReply {
  return complain(reply, 404, {
    what: 'There is no such campaign here',
    where: `campaign ${id.slice(0, 80)}`,
    mend: 'Look at the list of campaigns.',
  });
}

function fresh(reply: FastifyReply): FastifyReply {
  return reply.header('cache-control', 'no-store');
}
