import { generateKeyPairSync, sign } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { request as askPlain } from 'node:http';
import { type Agent, request as askSecure } from 'node:https';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { checkServerIdentity } from 'node:tls';
import { possessionText } from '@firnbook/journal';
import { lockFolder } from '@firnbook/storage/sqlite';
import type { RouteOptions } from 'fastify';
import { openCampaigns } from '../campaigns.ts';
import { temporaryFolder } from '../folders.suite.ts';
import { buildApp, buildInstaller, type Server, startServer } from '../start.ts';
import { watchSticks } from '../sticks/index.ts';
import { openDevices } from './devices.ts';
import { campNetwork } from './open.ts';
import { type NetworkSettings, writeNetwork } from './settings.ts';

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly text: string;
}

/** The interface that every machine has: the tests' camp network. A person can't name it (interfaces.test.ts). */
const loop =
  Object.entries(networkInterfaces()).find(([, all]) => all?.some(({ internal }) => internal))?.[0] ?? 'lo';

export const campName = 'ceredin.internal';
export const onLoop: NetworkSettings = {
  interface: loop,
  name: campName,
  isNameKnown: false,
  port: 0,
  installPort: 0,
};

export interface Camp {
  readonly server: Server;
  readonly dataFolder: string;
  readonly log: string[];
  /** "https://127.0.0.1:…" */
  readonly network: string;
  readonly installer: string;
  /** PEM of the camp's authority. */
  readonly authority: string;
  /** A new offer to pair. */
  offer(): Promise<{ readonly url: string; readonly code: string; readonly token: string }>;
  /** Pairs a device over the network, with its key where it has one; its Cookie header. */
  pair(name: string, key?: KeyPair): Promise<string>;
  /** Stops it, and starts it on the same folder. */
  restart(): Promise<Camp>;
  close(): Promise<void>;
}

/** A camp computer with its network open, in a folder of its own. */
export function openCamp(settings: NetworkSettings = onLoop): Promise<Camp> {
  const folder = temporaryFolder();
  writeNetwork(join(folder.path, 'data'), settings);
  return openCampIn(folder);
}

/** The same where the data folder has its network already. */
export async function openCampIn(folder: ReturnType<typeof temporaryFolder>): Promise<Camp> {
  const dataFolder = join(folder.path, 'data');
  const webFolder = join(folder.path, 'web');
  mkdirSync(webFolder, { recursive: true });
  writeFileSync(join(webFolder, 'index.html'), '<!doctype html><title>Book</title>');
  const log: string[] = [];
  const server = await startServer({ dataFolder, webFolder, port: 0, log: (line) => log.push(line) });
  const offers = async () => {
    const answer = await fetch(`${server.address}/api/pairing/offers`, { method: 'POST' });
    return (await answer.json()) as Record<string, string>;
  };
  const { installAddress = '', address = '' } = await offers();
  const authority = await ask(`${installAddress}/firnbook-camp.crt`, {}).then(({ body }) => pemOf(body));
  const offer = async () => {
    const { url = '', code = '' } = await offers();
    return { url, code, token: /token=([\w-]+)/.exec(url)?.[1] ?? '' };
  };
  return {
    server,
    dataFolder,
    log,
    network: address,
    installer: installAddress,
    authority,
    offer,
    async pair(name, key) {
      const { token } = await offer();
      const shown = key && { publicKey: key.publicKey, proof: key.sign(possessionText(token)) };
      const answer = await ask(`${address}/api/pairing`, {
        method: 'POST',
        ca: authority,
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ secret: token, name, ...shown }),
      });
      if (answer.status !== 201) throw new Error(answer.text);
      return String(answer.headers['set-cookie']).split(';', 1)[0] ?? '';
    },
    async restart() {
      await server.close();
      return openCampIn(folder);
    },
    async close() {
      await server.close();
      folder.remove();
    },
  };
}

/** The signing key of an invented device. */
export interface KeyPair {
  readonly publicKey: string;
  sign(text: string): string;
}

export function newKey(): KeyPair {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  return {
    publicKey: String(publicKey.export({ format: 'jwk' }).x),
    sign: (text) => sign(null, Buffer.from(text, 'utf8'), privateKey).toString('base64url'),
  };
}

export interface Ask {
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: string;
  /** The authority that the caller trusts: needed for https. */
  readonly ca?: string;
  /** Keeps connections open, for tests that ask often. */
  readonly agent?: Agent;
}

/** By hand: fetch takes no authority, and lets no test say another Host. */
export function ask(address: string, wanted: Ask): Promise<Answer & { readonly body: Buffer }> {
  const { method = 'GET', headers = {}, body, ca, agent = false } = wanted;
  const send = address.startsWith('https:') ? askSecure : askPlain;
  const { hostname } = new URL(address);
  // The address counts, not the Host header that a test says.
  const trust = {
    ca,
    servername: '',
    checkServerIdentity: (_host: string, certificate: Parameters<typeof checkServerIdentity>[1]) =>
      checkServerIdentity(hostname, certificate),
  };
  return new Promise((resolve, reject) => {
    const sent = send(address, { method, headers, ...(ca !== undefined && trust), agent });
    sent.once('error', reject);
    sent.once('response', (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.once('error', reject);
      response.once('end', () => {
        const all = Buffer.concat(parts);
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          text: all.toString(),
          body: all,
        });
      });
    });
    sent.end(body);
  });
}

export interface RouteLine {
  readonly method: string;
  readonly url: string;
  readonly policy: string;
}

/** Every route that the server makes, told by the router itself; without the HEAD of each GET. */
export async function allRoutes(): Promise<{
  readonly book: readonly RouteLine[];
  readonly installer: readonly RouteLine[];
}> {
  const folder = temporaryFolder();
  const lock = lockFolder(folder.path, 'the test');
  const nothing = () => undefined;
  const campaigns = openCampaigns(lock, nothing);
  await campaigns.checked();
  const sticks = watchSticks(folder.path, campaigns, nothing);
  const devices = openDevices(folder.path);
  const network = campNetwork(folder.path, nothing);
  const options = { dataFolder: folder.path, webFolder: folder.path, log: nothing };
  const book: RouteOptions[] = [];
  const installer: RouteOptions[] = [];
  const one = await buildApp({ campaigns, sticks, devices, network }, options, (route) => book.push(route));
  const two = await buildInstaller(network, nothing, (route) => installer.push(route));
  await one.close();
  await two.close();
  await sticks.stop();
  await network.close();
  lock.release();
  folder.remove();
  const lines = (routes: readonly RouteOptions[]): readonly RouteLine[] =>
    routes
      .map(({ method, url, config }) => ({ method: String(method), url, policy: config?.policy ?? 'none' }))
      .filter(({ method }) => method !== 'HEAD')
      .sort((a, b) => (`${a.method} ${a.url}: ${a.policy}` < `${b.method} ${b.url}: ${b.policy}` ? -1 : 1));
  return { book: lines(book), installer: lines(installer) };
}

function pemOf(der: Buffer): string {
  return `-----BEGIN CERTIFICATE-----\n${der.toString('base64').replace(/(.{64})(?!$)/g, '$1\n')}\n-----END CERTIFICATE-----\n`;
}
