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
import { hasNetwork, networkOn, recoverNetwork } from '../network/index.ts';
import { knownSticks } from './known.ts';
import { type NamingState, startNaming } from './naming.ts';
import { findSticks, newSticks } from './places.ts';
import type { Sticks } from './watch.ts';

interface OfThing {
  Params: { id: string };
}
interface Recovery extends OfThing {
  Body: unknown;
}

/** Enough to choose from; older ones are for the command line. */
const shown = 20;

export interface SticksOptions {
  readonly dataFolder: string;
  /** Folders whose children are media; those of this system unless given. */
  readonly media?: readonly string[] | undefined;
  readonly log: (line: string) => void;
  /** Told when another camp network lies in the data folder. */
  readonly onNetwork: () => Promise<void>;
}

/** Bytes that are written and read back where a person wants a short test. */
const shortTest = 256 * 1024 * 1024;
const longestName = 40;

/** Sticks, what is on them, naming new ones, and bringing campaigns and the camp network back. */
export function serveSticks(
  app: FastifyInstance,
  { dataFolder, media, log, onNetwork }: SticksOptions,
  campaigns: Campaigns,
  sticks: Sticks,
): void {
  const naming = startNaming(dataFolder, (name) => {
    log(`Stick ${name} is known to this book.`);
    void sticks.look();
  });
  app.addHook('onClose', () => naming.close());
  const unnamed = () => newSticks(knownSticks(dataFolder), dataFolder, media);

  app.get('/api/sticks/unnamed', { config: { policy: 'camp computer' } }, async (_request, reply) => {
    const state: NamingState | null = naming.state();
    return fresh(reply).send({ sticks: unnamed(), naming: state, hasNetwork: hasNetwork(dataFolder) });
  });

  app.post<{ Body: unknown }>(
    '/api/sticks/unnamed',
    { config: { policy: 'camp computer' } },
    async ({ body }, reply) => {
      const where = 'the new stick';
      const wanted = readNaming(body);
      if (wanted === null)
        return complain(reply, 400, {
          what: 'The request names no stick, name and test',
          where,
          mend: 'Load the page again.',
        });
      const stick = unnamed().find(({ place }) => place === wanted.place);
      if (stick === undefined)
        return complain(reply, 404, {
          what: 'This stick is not in the camp computer, or has a name already',
          where,
          mend: 'Put it in, wait a few seconds, and look again.',
        });
      if (!stick.canWrite)
        return complain(reply, 409, {
          what: 'This stick is write-protected',
          where,
          mend: 'Look for a switch on it, or take another one.',
        });
      // What another book wrote on its label stays: people read it there.
      const name = stick.name ?? wanted.name;
      if (name === '')
        return complain(reply, 400, {
          what: 'The stick has no name yet',
          where,
          mend: `Give one of at most ${longestName} characters, and write it on the stick.`,
        });
      const { test, withoutNetwork } = wanted;
      if (naming.begin({ stick, name, test, withoutNetwork })) return fresh(reply).code(202).send({});
      return complain(reply, 409, {
        what: 'Another stick is being tested',
        where,
        mend: 'Wait for it, or stop it.',
      });
    },
  );

  app.post('/api/sticks/unnamed/stop', { config: { policy: 'camp computer' } }, async (_request, reply) => {
    naming.stop();
    return fresh(reply).send({});
  });

  app.get<OfThing>(
    '/api/sticks/:id/network',
    { config: { policy: 'camp computer' } },
    async ({ params: { id } }, reply) => {
      const folder = findSticks(knownSticks(dataFolder)).get(id);
      if (folder === undefined) return away(reply, id);
      const isHere = hasNetwork(dataFolder);
      try {
        const kept = networkOn(folder);
        if (kept === null) return fresh(reply).send({ isHere, network: null, trouble: null });
        const { madeAt, host, devices } = kept;
        return fresh(reply).send({ isHere, network: { madeAt, host, devices }, trouble: null });
      } catch (error) {
        if (!isTrouble(error)) throw error;
        const trouble = { what: error.what, mend: error.mend };
        return fresh(reply).send({ isHere, network: null, trouble });
      }
    },
  );

  app.post<OfThing>(
    '/api/sticks/:id/recover-network',
    { config: { policy: 'camp computer' } },
    async ({ params: { id } }, reply) => {
      const folder = findSticks(knownSticks(dataFolder)).get(id);
      if (folder === undefined) return away(reply, id);
      const { generation, madeAt, host, devices, passedOver } = recoverNetwork(dataFolder, folder);
      for (const one of passedOver) log(`Passed over: ${one}.`);
      log(`The camp network was brought back from a stick; devices in its list: ${devices}.`);
      await onNetwork();
      return fresh(reply).code(201).send({ generation, madeAt, host, devices });
    },
  );
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

function readNaming(body: unknown): {
  readonly place: string;
  readonly name: string;
  readonly test: number;
  readonly withoutNetwork: boolean;
} | null {
  const { place, name, test, withoutNetwork, ...more } = (body ?? {}) as Partial<Record<string, unknown>>;
  if (Object.keys(more).length > 0) return null;
  if (typeof place !== 'string' || typeof name !== 'string' || typeof withoutNetwork !== 'boolean')
    return null;
  const bytes = { none: 0, short: shortTest, all: Number.POSITIVE_INFINITY };
  if (test !== 'none' && test !== 'short' && test !== 'all') return null;
  const trimmed = name.trim();
  // It is printed in terminals.
  if (trimmed.length > longestName || /\p{C}/u.test(trimmed)) return null;
  return { place, name: trimmed, test: bytes[test], withoutNetwork };
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
