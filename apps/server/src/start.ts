import { setTimeout } from 'node:timers/promises';
import { constants } from 'node:zlib';
import fastifyCompress from '@fastify/compress';
import { lockFolder } from '@firnbook/storage/sqlite';
import {
  type FastifyInstance,
  type FastifyReply,
  type FastifyRequest,
  fastify,
  type RouteOptions,
} from 'fastify';
import { complain, complaintOf } from './answers.ts';
import { serveAttachmentPieces } from './attachment-routes.ts';
import { type Campaigns, openCampaigns } from './campaigns.ts';
import { strangeHost } from './doors.ts';
import { securityHeaders, strictTransport } from './headers.ts';
import {
  type CampNetwork,
  campNetwork,
  type Devices,
  openDevices,
  serveDevices,
  serveInstaller,
} from './network/index.ts';
import { openPace } from './pace.ts';
import { openPins, type Pins, servePins } from './people/index.ts';
import { holdToPolicies, judge } from './policy.ts';
import { servePresence } from './presence/index.ts';
import { serveJournals } from './routes.ts';
import { removeServerInfo, writeServerInfo } from './server-info.ts';
import { type Sticks, serveSticks, watchSticks } from './sticks/index.ts';
import { serveWeb } from './web.ts';

export interface ServerOptions {
  readonly dataFolder: string;
  /** Folder of the built screens (apps/web/dist). */
  readonly webFolder: string;
  /** 7411 unless given; 0 takes any free one. */
  readonly port?: number;
  /** Lines for the person who started it. */
  readonly log: (line: string) => void;
  /** Folders under which sticks show up; those of this system unless given. */
  readonly media?: readonly string[];
}

export interface Server {
  /** "http://127.0.0.1:7411": for this computer alone. */
  readonly address: string;
  /** "https://192.168.7.2:7443" for paired devices; null while no interface is named, or it has no address. */
  readonly networkAddress: () => string | null;
  /** Answers what is under way, closes every journal and gives the folder back. Again is no trouble. */
  close(): Promise<void>;
}

export const defaultPort = 7411;

/**
 * Starts the camp computer's server on a data folder.
 *
 * @throws StoreTrouble 'locked' when another process has the folder; Error with words when the port is taken
 */
export async function startServer(options: ServerOptions): Promise<Server> {
  const { dataFolder, log } = options;
  const lock = lockFolder(dataFolder, 'the server');
  let campaigns: Campaigns | null = null;
  let app: FastifyInstance | null = null;
  let installer: FastifyInstance | null = null;
  let sticks: Sticks | null = null;
  let devices: Devices | null = null;
  const network = campNetwork(dataFolder, log);
  let closing: Promise<void> | null = null;

  async function shut(): Promise<void> {
    await network.close();
    await installer?.close();
    await app?.close();
    devices?.close();
    await sticks?.stop();
    await campaigns?.close();
    removeServerInfo(dataFolder);
    lock.release();
  }

  try {
    campaigns = openCampaigns(lock, log);
    sticks = watchSticks(dataFolder, campaigns, log);
    devices = devicesOf(dataFolder, log);
    app = await buildApp({ campaigns, sticks, devices, network }, options);
    installer = await buildInstaller(network, log);
    const address = await listen(app, options.port ?? defaultPort);
    leaveWord(dataFolder, address, log);
    network.serve(app, installer);
    // Whatever is wrong there, the camp computer itself works on.
    await network.look();
    await campaigns.checked();
    void sticks.look();
    return { address, networkAddress: () => network.state().address, close: () => (closing ??= shut()) };
  } catch (error) {
    await shut();
    throw error;
  }
}

/** What the routes serve. */
interface Rooms {
  readonly campaigns: Campaigns;
  readonly sticks: Sticks;
  readonly devices: Devices | null;
  readonly network: CampNetwork;
}

/**
 * Doors, headers and routes; not yet listening.
 *
 * @param onRoute told of every route that is made
 */
export async function buildApp(
  { campaigns, sticks, devices, network }: Rooms,
  options: Pick<ServerOptions, 'dataFolder' | 'webFolder' | 'log' | 'media'>,
  onRoute?: (route: RouteOptions) => void,
): Promise<FastifyInstance> {
  const { dataFolder, webFolder, log, media } = options;
  const pins = pinsOf(dataFolder, log);
  const gate = { namesOnNetwork: network.names, devices };
  const pace = openPace();
  const app = bareApp(log, onRoute);
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(securityHeaders);
    const { refused, device } = judge(request, gate);
    if (refused !== null) return complain(reply, refused.status, refused.complaint);
    if (device !== null) {
      const wait = pace.wait(device.id);
      if (wait === null) return tooFast(reply, device.name);
      if (wait > 0) await setTimeout(wait);
    }
    if (request.routeOptions.config.policy !== 'anyone') await campaigns.checked(campaignOf(request));
    if (device === null) return;
    // Paired means that its browser took the camp's certificate: from now on it takes nothing less.
    reply.headers(strictTransport);
    devices?.see(device.id);
  });

  await app.register(fastifyCompress, {
    encodings: ['br', 'gzip'],
    threshold: 1024,
    // The default takes longer over an answer than the camp's network does.
    brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } },
    // A compressed request could unpack to any size.
    globalDecompression: false,
  });
  serveJournals(app, campaigns, dataFolder);
  serveAttachmentPieces(app, campaigns, dataFolder);
  /** Another camp network lies in the data folder: it was brought back from a stick. */
  const onNetwork = async () => {
    devices?.reload();
    pins?.reload();
    await network.look();
  };
  serveSticks(app, { dataFolder, media, log, onNetwork }, campaigns, sticks);
  servePresence(app, dataFolder, campaigns, devices, log);
  serveDevices(app, devices, network, campaigns);
  servePins(app, pins, campaigns, devices);
  await serveWeb(app, webFolder);
  await app.ready();
  return app;
}

/** What plain http on the camp's network gets. */
export async function buildInstaller(
  network: CampNetwork,
  log: (line: string) => void,
  onRoute?: (route: RouteOptions) => void,
): Promise<FastifyInstance> {
  const app = bareApp(log, onRoute);
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(securityHeaders);
    const stranger = strangeHost(request, network.names());
    if (stranger !== null) return complain(reply, 421, stranger);
  });
  serveInstaller(app, network);
  await app.ready();
  return app;
}

function tooFast(reply: FastifyReply, name: string): FastifyReply {
  return complain(reply.header('retry-after', 5), 429, {
    what: 'This device asks more often than the camp computer lets one device',
    where: name,
    mend: 'Nothing is lost. Load the page again; if it goes on, restart the device.',
  });
}

/** The campaign that a request's address names: it waits for the check of that one alone. */
function campaignOf({ routeOptions, params }: FastifyRequest): string | undefined {
  return routeOptions.url?.startsWith('/api/campaigns/:id') ? (params as { id: string }).id : undefined;
}

/** Limits and words for everything that goes wrong; no route yet. */
function bareApp(log: (line: string) => void, onRoute?: (route: RouteOptions) => void): FastifyInstance {
  const app = fastify({
    logger: false,
    bodyLimit: 64 * 1024,
    requestTimeout: 120_000,
    onProtoPoisoning: 'error',
    onConstructorPoisoning: 'error',
    forceCloseConnections: 'idle',
    routerOptions: { maxParamLength: 128 },
  });
  app.removeContentTypeParser('text/plain');

  holdToPolicies(app);
  if (onRoute !== undefined) app.addHook('onRoute', onRoute);
  app.setErrorHandler((error, request, reply) => {
    const { status, complaint } = complaintOf(error, placeOf(request.method, request.url), log);
    return complain(reply, status, complaint);
  });
  app.setNotFoundHandler((request, reply) =>
    complain(reply, 404, {
      what: 'There is nothing at this address',
      where: placeOf(request.method, request.url),
      mend: 'Start at the first page of the book.',
    }),
  );
  return app;
}

/** Null where the list can't be read: then no device comes in, and the camp computer itself works on. */
function devicesOf(dataFolder: string, log: (line: string) => void): Devices | null {
  try {
    return openDevices(dataFolder);
  } catch (error) {
    log(error instanceof Error ? error.message : String(error));
    return null;
  }
}

/** Null where the list can't be read: then nobody's PIN is believed, and logging goes on. */
function pinsOf(dataFolder: string, log: (line: string) => void): Pins | null {
  try {
    return openPins(dataFolder);
  } catch (error) {
    log(error instanceof Error ? error.message : String(error));
    return null;
  }
}

/** The command line finds the server by it. A full disk must not keep the server from serving. */
function leaveWord(dataFolder: string, address: string, log: (line: string) => void): void {
  try {
    writeServerInfo(dataFolder, { address, pid: process.pid });
  } catch (error) {
    log(`The address could not be left in ${dataFolder}: ${String(error)}`);
  }
}

/** On this computer's own loop and nowhere else: plain http keeps no secret. */
async function listen(app: FastifyInstance, port: number): Promise<string> {
  const host = '127.0.0.1';
  try {
    await app.listen({ host, port });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EADDRINUSE')
      throw new Error(`Port ${port} on ${host} is in use. Choose another with --port, or stop what uses it.`);
    throw error;
  }
  const bound = app.server.address();
  const taken = typeof bound === 'object' && bound !== null ? bound.port : port;
  return `http://${host}:${taken}`;
}

function placeOf(method: string, url: string): string {
  return `${method} ${url.split('?', 1)[0]?.slice(0, 200)}`;
}
