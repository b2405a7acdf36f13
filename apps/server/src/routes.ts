import { createReadStream, statfsSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { digest, PROTOCOL, readRequest } from '@firnbook/journal';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { complain } from './answers.ts';
import type { Campaigns, OpenCampaign } from './campaigns.ts';

/** An offer holds at most a million characters of entries (journal's LIMIT); JSON may write one as six bytes. */
const exchangeBytes = 8 * 1024 * 1024;
const attachmentBytes = 512 * 1024 * 1024;
/** Room that attachments leave for entries. */
const reserveBytes = 1024 * 1024 * 1024;

const { version } = createRequire(import.meta.url)('../package.json') as { version: string };

interface OfCampaign {
  Params: { id: string };
}
interface OfAttachment {
  Params: { id: string; sha256: string };
}

/** The HTTP side of the record: exchange, digest, attachments. Storing goes through the replica alone. */
export function serveJournals(app: FastifyInstance, campaigns: Campaigns, dataFolder: string): void {
  app.get('/api/health', { config: { policy: 'anyone' } }, async (_request, reply) =>
    fresh(reply).send({ product: 'firnbook', version, protocol: PROTOCOL }),
  );

  app.get('/api/campaigns', { config: { policy: 'crew reads' } }, async (_request, reply) => {
    const byId = [...campaigns.open.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
    const open = await Promise.all(byId.map(listed));
    const closed = [...campaigns.closed.values()].map(({ id, trouble }) => ({
      id,
      name: id,
      invented: false,
      entries: 0,
      epoch: '',
      trouble,
    }));
    return fresh(reply).send([...open, ...closed]);
  });

  app.post<OfCampaign>(
    '/api/campaigns/:id/exchange',
    { config: { policy: 'crew writes' }, bodyLimit: exchangeBytes },
    async (request, reply) => {
      const where = `campaign ${request.params.id}`;
      const read = readRequest(request.body);
      if (!read.ok)
        return complain(reply, 400, {
          what: `The request can not be read: ${read.problem}`,
          where,
          mend: 'Load the page again, so that both sides are of one version.',
        });
      if (read.value.campaign !== request.params.id)
        return complain(reply, 400, {
          what: `The request is for campaign ${read.value.campaign}`,
          where,
          mend: 'Send it to the address of its own campaign.',
        });
      const campaign = campaigns.open.get(request.params.id) ?? (await campaigns.welcome(read.value));
      if (campaign === null) return unknown(reply, campaigns, request.params.id);
      // Resolves when what came is on the disk; only then does an answer go out (J4).
      return fresh(reply).send(await campaigns.answer(campaign, read.value));
    },
  );

  app.get<OfCampaign>(
    '/api/campaigns/:id/digest',
    { config: { policy: 'crew reads' } },
    async (request, reply) => {
      const campaign = campaigns.open.get(request.params.id);
      if (campaign === undefined) return unknown(reply, campaigns, request.params.id);
      const { ledger } = campaign.replica;
      return fresh(reply).send({ entries: ledger.size, digest: digest(ledger) });
    },
  );

  app.get<OfAttachment>(
    '/api/campaigns/:id/attachments/:sha256',
    { config: { policy: 'crew reads' } },
    async (request, reply) => {
      const { id, sha256 } = request.params;
      const campaign = campaigns.open.get(id);
      if (campaign === undefined) return unknown(reply, campaigns, id);
      const state = await campaign.attachments.state(sha256);
      const file = campaign.attachments.path(sha256);
      if (state !== 'held' || file === null)
        return complain(reply, 404, {
          what: `The attachment is ${state === 'damaged' ? 'damaged' : 'not here yet'}`,
          where: `campaign ${id}, attachment ${sha256}`,
          mend: 'Sync the device that has it.',
        });
      return reply
        .header('cache-control', 'private, max-age=31536000, immutable')
        .header('content-length', statSync(file).size)
        .header('content-disposition', 'attachment')
        .type('application/octet-stream')
        .send(createReadStream(file));
    },
  );

  // A context of its own: bytes of any kind are taken here and nowhere else.
  app.register(async (inner) => {
    inner.removeAllContentTypeParsers();
    inner.addContentTypeParser('application/octet-stream', (_request, payload, done) => done(null, payload));
    inner.put<OfAttachment>(
      '/api/campaigns/:id/attachments/:sha256',
      { config: { policy: 'crew writes' } },
      async (request, reply) => {
        const { id, sha256 } = request.params;
        const where = `campaign ${id}, attachment ${sha256.slice(0, 80)}`;
        const campaign = campaigns.open.get(id);
        if (campaign === undefined) return unknown(reply, campaigns, id);
        const length = Number(request.headers['content-length'] ?? 0);
        if (length > attachmentBytes)
          return complain(reply, 413, {
            what: `The file is larger than ${attachmentBytes} bytes`,
            where,
            mend: 'Split it, or keep it on a disk of its own.',
          });
        const { bavail, bsize } = statfsSync(dataFolder);
        if (bavail * bsize - length < reserveBytes)
          return complain(reply, 507, {
            what: 'The disk is nearly full; what is left is kept for entries',
            where,
            mend: 'Free some space on the camp computer, then send the file again.',
          });
        await campaign.attachments.put(sha256, request.body as AsyncIterable<Uint8Array>, attachmentBytes);
        return fresh(reply).code(201).send({ sha256 });
      },
    );
  });
}

/** What the list of campaigns says of one. */
async function listed({ id, store, replica, title }: OpenCampaign) {
  const { name, invented } = title();
  const line = { id, name, invented, entries: replica.ledger.size, epoch: await store.epoch() };
  const first = store.damage[0];
  if (first === undefined) return line;
  const what = `The journal is damaged and open for reading alone: ${first.what}`;
  return {
    ...line,
    trouble: { what, where: `campaign ${id}, row ${first.position ?? 'unknown'}`, mend: first.mend },
  };
}

function unknown(reply: FastifyReply, campaigns: Campaigns, id: string): FastifyReply {
  const closed = campaigns.closed.get(id);
  if (closed !== undefined) return complain(reply, 503, closed.trouble);
  return complain(reply, 404, {
    what: 'There is no such campaign here',
    where: `campaign ${id.slice(0, 80)}`,
    mend: 'Open it on the device that began it and let that sync, or see the list of campaigns.',
  });
}

function fresh(reply: FastifyReply): FastifyReply {
  return reply.header('cache-control', 'no-store');
}
