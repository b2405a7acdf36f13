import { statfsSync } from 'node:fs';
import { type AttachmentPieces, openAttachmentPieces, PIECE_BYTES } from '@firnbook/storage/sqlite';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { complain } from './answers.ts';
import type { Campaigns } from './campaigns.ts';

const attachmentBytes = 512 * 1024 * 1024;
/** Room that attachments leave for entries. */
const reserveBytes = 1024 * 1024 * 1024;
/** How long an unfinished attachment is kept, ms: a tablet may be out for a traverse of some days. */
const patience = 7 * 24 * 3_600_000;
const lookEvery = 3_600_000;

interface OfAttachment {
  Params: { id: string; sha256: string };
}
interface OfPiece {
  Params: { id: string; sha256: string; offset: string };
  Querystring: { size?: string };
}

/**
 * Attachments in pieces of at most 1 MiB: a device asks how far the camp computer has a file and goes on from there,
 * in both directions. Whole files go through routes.ts still.
 */
export function serveAttachmentPieces(app: FastifyInstance, campaigns: Campaigns, dataFolder: string): void {
  const known = new Map<string, AttachmentPieces>();
  const piecesOf = (id: string): AttachmentPieces | null => {
    const campaign = campaigns.open.get(id);
    if (campaign === undefined) return null;
    const there = known.get(id) ?? openAttachmentPieces(campaign.attachments);
    known.set(id, there);
    return there;
  };
  const forgetOld = () => {
    for (const id of campaigns.open.keys()) piecesOf(id)?.forget(Date.now() - patience);
  };
  // That a check has failed, the start says.
  void campaigns.checked().then(forgetOld, () => undefined);
  const timer = setInterval(forgetOld, lookEvery).unref();
  app.addHook('onClose', async () => clearInterval(timer));

  app.get<OfAttachment>(
    '/api/campaigns/:id/attachments/:sha256/pieces',
    { config: { policy: 'crew reads' } },
    async ({ params: { id, sha256 } }, reply) => {
      const pieces = piecesOf(id);
      if (pieces === null) return unknown(reply, id);
      return fresh(reply).send(await pieces.progress(sha256));
    },
  );

  app.get<OfPiece>(
    '/api/campaigns/:id/attachments/:sha256/pieces/:offset',
    { config: { policy: 'crew reads' } },
    async ({ params: { id, sha256, offset } }, reply) => {
      const pieces = piecesOf(id);
      if (pieces === null) return unknown(reply, id);
      const at = countOf(offset);
      const bytes = at === null ? null : pieces.read(sha256, at);
      if (bytes === null)
        return complain(reply, 404, {
          what: 'This piece of the attachment is not here',
          where: placeOf(id, sha256),
          mend: 'Sync the device that has it.',
        });
      return fresh(reply).type('application/octet-stream').send(bytes);
    },
  );

  // A context of its own: bytes are taken here and nowhere else.
  app.register(async (inner) => {
    inner.removeAllContentTypeParsers();
    inner.addContentTypeParser(
      'application/octet-stream',
      { parseAs: 'buffer', bodyLimit: PIECE_BYTES },
      (_request, body, done) => done(null, body),
    );
    inner.put<OfPiece>(
      '/api/campaigns/:id/attachments/:sha256/pieces/:offset',
      { config: { policy: 'crew writes' }, bodyLimit: PIECE_BYTES },
      async ({ params: { id, sha256, offset }, query, body }, reply) => {
        const pieces = piecesOf(id);
        if (pieces === null) return unknown(reply, id);
        const at = countOf(offset);
        const size = countOf(query.size ?? '');
        // An empty file is one empty piece, which the framework doesn't hand to the parser.
        const bytes = body ?? Buffer.alloc(0);
        if (at === null || size === null || !Buffer.isBuffer(bytes))
          return complain(reply, 400, {
            what: 'A piece needs its offset, the size of the whole, and bytes',
            where: placeOf(id, sha256),
            mend: 'Load the page again, so that both sides are of one version.',
          });
        if (size > attachmentBytes)
          return complain(reply, 413, {
            what: `The file is larger than ${attachmentBytes} bytes`,
            where: placeOf(id, sha256),
            mend: 'Split it, or keep it on a disk of its own.',
          });
        const { bavail, bsize } = statfsSync(dataFolder);
        if (bavail * bsize - (size - at) < reserveBytes)
          return complain(reply, 507, {
            what: 'The disk is nearly full; what is left is kept for entries',
            where: placeOf(id, sha256),
            mend: 'Free some space on the camp computer, then send the file again.',
          });
        return fresh(reply).send(await pieces.add(sha256, size, at, bytes));
      },
    );
  });
}

function countOf(text: string): number | null {
  return /^\d{1,15}$/.test(text) ? Number(text) : null;
}

function placeOf(id: string, sha256: string): string {
  return `campaign ${id.slice(0, 80)}, attachment ${sha256.slice(0, 80)}`;
}

function unknown(reply: FastifyReply, id: string): FastifyReply {
  return complain(reply, 404, {
    what: 'There is no such campaign here',
    where: `campaign ${id.slice(0, 80)}`,
    mend: 'Open it on the device that began it and let that sync, or see the list of campaigns.',
  });
}

function fresh(reply: FastifyReply): FastifyReply {
  return reply.header('cache-control', 'no-store');
}
