import {
  type BackupRecord,
  backedUpCampaigns,
  backupRecord,
  isTrouble,
  listBackups,
} from '@firnbook/storage/sqlite';
import type { FastifyInstance, FastifyReply } from 'fastify';
import { complain } from '../answers.ts';
import type { Campaigns } from '../campaigns.ts';
import { knownSticks } from './known.ts';
import { findSticks } from './places.ts';
import type { Sticks } from './watch.ts';

interface OfThing {
  Params: { id: string };
}
interface Recovery extends OfThing {
  Body: unknown;
}

/** Enough to choose from; older ones are for the command line. */
const shown = 20;

/** Sticks, what is on them, and bringing a campaign back. */
export function serveSticks(
  app: FastifyInstance,
  dataFolder: string,
  campaigns: Campaigns,
  sticks: Sticks,
): void {
  app.get('/api/sticks', { config: { policy: 'crew reads' } }, async (_request, reply) =>
    fresh(reply).send(sticks.states()),
  );

  app.get<OfThing>(
    '/api/campaigns/:id/backups',
    { config: { policy: 'crew reads' } },
    async ({ params: { id } }, reply) => {
      if (campaigns.open.has(id)) return fresh(reply).send(named(sticks, id));
      return complain(reply, 404, {
        what: 'There is no such campaign here',
        where: `campaign ${id.slice(0, 80)}`,
        mend: 'Look at the list of campaigns.',
      });
    },
  );

  app.get<OfThing>(
    '/api/sticks/:id/generations',
    { config: { policy: 'crew reads' } },
    async ({ params: { id } }, reply) => {
      const folder = findSticks(knownSticks(dataFolder)).get(id);
      return folder === undefined ? away(reply, id) : fresh(reply).send(generationsOn(folder, campaigns));
    },
  );

  app.post<Recovery>(
    '/api/sticks/:id/recover',
    { config: { policy: 'crew writes' } },
    async ({ params: { id }, body }, reply) => {
      const wanted = readWanted(body);
      if (wanted === null)
        return complain(reply, 400, {
          what: 'The request names no campaign and generation',
          where: `stick ${id.slice(0, 80)}`,
          mend: 'Load the page again.',
        });
      const folder = findSticks(knownSticks(dataFolder)).get(id);
      if (folder === undefined) return away(reply, id);
      const generation = listBackups(folder, wanted.campaign).find(
        (path) => recordOf(path)?.generation === wanted.generation,
      );
      if (generation === undefined)
        return complain(reply, 404, {
          what: `There is no generation ${wanted.generation} of that campaign`,
          where: `stick ${id}`,
          mend: 'Choose one from the list.',
        });
      const { entries, digest } = await campaigns.recover(generation);
      return fresh(reply).code(201).send({ campaign: wanted.campaign, entries, digest });
    },
  );
}

/** Backups with the name on their stick: what a tick says. */
function named(sticks: Sticks, campaign: string) {
  const names = new Map(sticks.states().map(({ id, name }) => [id, name]));
  return sticks.backups(campaign).map((backup) => ({ ...backup, name: names.get(backup.stick) ?? '?' }));
}

function generationsOn(folder: string, campaigns: Campaigns) {
  return backedUpCampaigns(folder).map((campaign) => ({
    campaign,
    name: campaigns.open.get(campaign)?.title().name ?? null,
    isHere: campaigns.open.has(campaign),
    generations: listBackups(folder, campaign)
      .map(recordOf)
      .filter((record) => record !== null)
      .reverse()
      .slice(0, shown)
      .map(({ generation, madeAt, entries }) => ({ generation, madeAt, entries })),
  }));
}

function recordOf(folder: string): BackupRecord | null {
  try {
    return backupRecord(folder);
  } catch (error) {
    // A torn record is no backup to choose; the command line says what is wrong with it.
    if (isTrouble(error)) return null;
    throw error;
  }
}

function readWanted(body: unknown): { readonly campaign: string; readonly generation: number } | null {
  const { campaign, generation } = (body ?? {}) as { campaign?: unknown; generation?: unknown };
  if (typeof campaign !== 'string' || typeof generation !== 'number') return null;
  return { campaign, generation };
}

function away(reply: FastifyReply, id: string): FastifyReply {
  return complain(reply, 404, {
    what: 'This stick is not in the camp computer',
    where: `stick ${id.slice(0, 80)}`,
    mend: 'Put it in, wait a few seconds, and look again.',
  });
}

function fresh(reply: FastifyReply): FastifyReply {
  return reply.header('cache-control', 'no-store');
}
