import { constants } from 'node:zlib';
import fastifyCompress from '@fastify/compress';
import { lockFolder } from '@firnbook/storage/sqlite';
import { type FastifyInstance, fastify, type RouteOptions } from 'fastify';
import { complain, complaintOf } from './answers.ts';
import { type Campaigns, openCampaigns } from './campaigns.ts';
import { ownNames } from './doors.ts';
import { securityHeaders } from './headers.ts';
import { holdToPolicies, refuse } from './policy.ts';
import { serveJournals } from './routes.ts';
import { removeServerInfo, writeServerInfo } from './server-info.ts';
import { serveWeb } from './web.ts';

export interface ServerOptions {
  readonly dataFolder: string;
  /** Folder of the built screens (apps/web/dist). */
  readonly webFolder: string;
  /** 7411 unless given; 0 takes any free one. */
  readonly port?: number;
  /** Address to listen on: 127.0.0.1, this computer alone, unless given. */
  readonly host?: string;
  /** More names under which browsers reach it ("camp.example"). */
  readonly names?: readonly string[];
  /** Lines for the person who started it. */
  readonly log: (line: string) => void;
}

export interface Server {
  /** "http://127.0.0.1:7411" */
  readonly address: string;
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
  const host = options.host ?? '127.0.0.1';
  const lock = lockFolder(dataFolder, 'the server');
  let campaigns: Campaigns | null = null;
  let app: FastifyInstance | null = null;
  let closing: Promise<void> | null = null;

  async function shut(): Promise<void> {
    await app?.close();
    await campaigns?.close();
    removeServerInfo(dataFolder);
    lock.release();
  }

  try {
    campaigns = await openCampaigns(dataFolder, log);
    app = await buildApp(campaigns, options, host);
    const address = await listen(app, host, options.port ?? defaultPort);
    leaveWord(dataFolder, address, log);
    return { address, close: () => (closing ??= shut()) };
  } catch (error) {
    await shut();
    throw error;
  }
}

/**
 * Doors, headers and routes; not yet listening.
 *
 * @param onRoute told of every route that is made
 */
export async function buildApp(
  campaigns: Campaigns,
  options: ServerOptions,
  host: string,
  onRoute?: (route: RouteOptions) => void,
): Promise<FastifyInstance> {
  const { dataFolder, webFolder, log } = options;
  const names = ownNames(host, options.names ?? []);
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
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(securityHeaders);
    const refusal = refuse(request, names);
    if (refusal !== null) return complain(reply, refusal.status, refusal.complaint);
  });
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

  await app.register(fastifyCompress, {
    encodings: ['br', 'gzip'],
    threshold: 1024,
    // The default takes longer over an answer than the camp's network does.
    brotliOptions: { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } },
    // A compressed request could unpack to any size.
    globalDecompression: false,
  });
  serveJournals(app, campaigns, dataFolder);
  await serveWeb(app, webFolder);
  await app.ready();
  return app;
}

/** The command line finds the server by it. A full disk must not keep the server from serving. */
function leaveWord(dataFolder: string, address: string, log: (line: string) => void): void {
  try {
    writeServerInfo(dataFolder, { address, pid: process.pid });
  } catch (error) {
    log(`The address could not be left in ${dataFolder}: ${String(error)}`);
  }
}

async function listen(app: FastifyInstance, host: string, port: number): Promise<string> {
  try {
    await app.listen({ host, port });
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'EADDRINUSE')
      throw new Error(`Port ${port} on ${host} is in use. Choose another with --port, or stop what uses it.`);
    if (code === 'EADDRNOTAVAIL')
      throw new Error(`This computer has no address ${host}. Name one of its own with --host.`);
    throw error;
  }
  const bound = app.server.address();
  const taken = typeof bound === 'object' && bound !== null ? bound.port : port;
  // A wildcard can't be opened in a browser; this computer's own name for itself can.
  const named = host === '0.0.0.0' || host === '::' ? '127.0.0.1' : host.includes(':') ? `[${host}]` : host;
  return `http://${named}:${taken}`;
}

function placeOf(method: string, url: string): string {
  return `${method} ${url.split('?', 1)[0]?.slice(0, 200)}`;
}
