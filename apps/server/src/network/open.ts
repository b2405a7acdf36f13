import { createServer as createPlainServer, type Server as HttpServer } from 'node:http';
import { createServer as createSecureServer, type Server as HttpsServer } from 'node:https';
import type { AddressInfo } from 'node:net';
import type { FastifyInstance } from 'fastify';
import type { Complaint } from '../answers.ts';
import { bracketed, namesOn } from '../doors.ts';
import { type Certificates, campAuthority, campCertificates, fingerprintOf } from './certificates.ts';
import { addressesOf } from './interfaces.ts';
import { type NetworkSettings, readNetwork } from './settings.ts';

/** The camp's network as it is open now. */
type NetworkState =
  | {
      /** "https://192.168.7.2:7443": what tablets are given. */
      readonly address: string;
      /** "http://192.168.7.2:7411" */
      readonly installAddress: string;
      readonly authority: string;
      readonly fingerprint: string;
      readonly trouble: null;
    }
  | {
      readonly address: null;
      readonly authority: null;
      /** Null where no interface was named. */
      readonly trouble: Complaint | null;
    };

/** Serves the book on the interface that a person named, whenever that has an address. */
export interface CampNetwork {
  state(): NetworkState;
  /** Names of this computer there, for Host headers. */
  names(): ReadonlySet<string>;
  /** What answers there: the book over https, the certificate's page in plain. */
  serve(book: FastifyInstance, installer: FastifyInstance): void;
  /** Compares what is open with what is wanted: an interface comes late, changes its address, or was named just now. */
  look(): Promise<void>;
  close(): Promise<void>;
}

interface Opened {
  readonly settings: NetworkSettings;
  readonly addresses: readonly string[];
  readonly secure: HttpsServer;
  readonly plain: HttpServer;
  /** When its certificate was looked at last, ms since 1970. */
  checkedAt: number;
}

const lookEvery = 5_000;
/** How often certificates are looked at, ms: they last for months. */
const checkEvery = 3_600_000;
/** How long a request that is under way may still take at the end, ms. */
const grace = 2_000;
const shut: NetworkState = { address: null, authority: null, trouble: null };

/** Forward secrecy and authenticated encryption, for the one key there is (ECDSA); the first three are TLS 1.3. */
const ciphers = [
  'TLS_AES_256_GCM_SHA384',
  'TLS_CHACHA20_POLY1305_SHA256',
  'TLS_AES_128_GCM_SHA256',
  'ECDHE-ECDSA-AES256-GCM-SHA384',
  'ECDHE-ECDSA-CHACHA20-POLY1305',
  'ECDHE-ECDSA-AES128-GCM-SHA256',
].join(':');
const protocol = { minVersion: 'TLSv1.2', ciphers, honorCipherOrder: true } as const;

export function campNetwork(
  dataFolder: string,
  log: (line: string) => void,
  now: () => number = Date.now,
): CampNetwork {
  let apps: { readonly book: FastifyInstance; readonly installer: FastifyInstance } | null = null;
  let opened: Opened | null = null;
  let state: NetworkState = shut;
  let names: ReadonlySet<string> = new Set();
  let told: string | null = null;
  let looking: Promise<void> | null = null;
  let isClosed = false;

  const fail = (trouble: Complaint) => {
    // Looked at every few seconds, and said once.
    if (told !== trouble.what) log(`${trouble.what} (${trouble.where}). ${trouble.mend}`);
    told = trouble.what;
    state = { address: null, authority: null, trouble };
  };

  async function lookOnce(): Promise<void> {
    const settings = readNetwork(dataFolder);
    if (settings === null || isClosed) return await end();
    const addresses = addressesOf(settings.interface);
    const isAsWanted =
      opened !== null &&
      isSame(opened, settings, addresses) &&
      // Set aside by a person, for a new one.
      campAuthority(dataFolder) === state.authority;
    if (!isAsWanted) await end();
    if (addresses.length === 0) {
      fail({
        what: `${settings.interface} has no address: no tablet reaches this computer`,
        where: 'the camp network',
        mend: 'Connect it to the camp network; it is opened by itself then. Entry on the tablets goes on.',
      });
      return;
    }
    if (opened !== null && now() - opened.checkedAt < checkEvery) return;
    const certificates = await campCertificates(dataFolder, settings.name, addresses, now());
    if (opened === null) return await open(settings, addresses, certificates);
    opened.checkedAt = now();
    if (certificates.isNew) {
      const { certificate, key } = certificates.server;
      opened.secure.setSecureContext({ ...protocol, cert: certificate, key });
      log('The certificate of the camp network was renewed.');
    }
  }

  async function open(
    settings: NetworkSettings,
    addresses: readonly string[],
    certificates: Certificates,
  ): Promise<void> {
    if (apps === null) return;
    const { book, installer } = apps;
    const { server } = certificates;
    // Kept open between two exchanges: a handshake costs a tablet more than a request.
    const limits = { requestTimeout: 120_000, headersTimeout: 30_000, keepAliveTimeout: 72_000 };
    const secure = createSecureServer(
      {
        ...limits,
        ...protocol,
        cert: server.certificate,
        key: server.key,
        handshakeTimeout: 20_000,
      },
      (request, response) => book.routing(request, response),
    );
    const plain = createPlainServer(limits, (request, response) => installer.routing(request, response));
    const [address = ''] = addresses;
    names = namesOn(settings.name, addresses);
    try {
      const port = await listen(secure, address, settings.port);
      const installPort = await listen(plain, address, settings.installPort);
      opened = { settings, addresses, secure, plain, checkedAt: now() };
      told = null;
      const { authority } = certificates;
      state = {
        address: `https://${settings.isNameKnown ? settings.name : bracketed(address)}:${port}`,
        // By address: a browser that has the name under HSTS would ask for https at this port.
        installAddress: `http://${bracketed(address)}:${installPort}`,
        authority,
        fingerprint: fingerprintOf(authority),
        trouble: null,
      };
      log(`Tablets reach the book at ${state.address} (certificate and pairing: ${state.installAddress})`);
    } catch (error) {
      secure.close();
      plain.close();
      throw error;
    }
  }

  async function end(): Promise<void> {
    const was = opened;
    opened = null;
    state = shut;
    if (was === null) return;
    log('The camp network was closed.');
    await Promise.all([stop(was.secure), stop(was.plain)]);
  }

  const look = (): Promise<void> => {
    looking ??= lookOnce()
      .catch(async (error: unknown) => {
        await end();
        fail(troubleOf(error));
      })
      .finally(() => {
        looking = null;
      });
    return looking;
  };
  const timer = setInterval(() => void look(), lookEvery);
  timer.unref();

  return {
    look,
    state: () => state,
    names: () => names,
    serve(book, installer) {
      apps = { book, installer };
    },
    async close() {
      isClosed = true;
      clearInterval(timer);
      await looking;
      await end();
    },
  };
}

function isSame(opened: Opened, settings: NetworkSettings, addresses: readonly string[]): boolean {
  return (
    JSON.stringify(opened.settings) === JSON.stringify(settings) &&
    JSON.stringify(opened.addresses) === JSON.stringify(addresses)
  );
}

function listen(server: HttpServer | HttpsServer, host: string, port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host, port }, () => {
      server.off('error', reject);
      // An error of one connection is that connection's.
      server.on('error', () => undefined);
      resolve((server.address() as AddressInfo).port);
    });
  });
}

/** Lets what is under way end, then closes what is left. */
async function stop(server: HttpServer | HttpsServer): Promise<void> {
  const isDown = new Promise<void>((resolve) => server.close(() => resolve()));
  server.closeIdleConnections();
  const late = setTimeout(() => server.closeAllConnections(), grace);
  await isDown;
  clearTimeout(late);
}

function troubleOf(error: unknown): Complaint {
  const where = 'the camp network';
  const { code, address, port } = error as NodeJS.ErrnoException & { address?: string; port?: number };
  if (code === 'EADDRINUSE')
    return {
      what: `Port ${port} on ${address} is in use`,
      where,
      mend: 'Stop what uses it, or choose another: firnbook network use --port.',
    };
  const said = error instanceof Error ? error.message : String(error);
  const [what = said, ...mend] = said.split('. ');
  return {
    what,
    where,
    mend: mend.join('. ') || 'Tablets can not sync until this is mended; entry goes on.',
  };
}
