import { execFileSync, spawnSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server as NetServer } from 'node:net';
import { join } from 'node:path';
import { connect } from 'node:tls';
import { afterEach, describe, expect, it } from 'vitest';
import { inFolder } from '../folders.suite.ts';
import { startServer } from '../start.ts';
import { ask, type Camp, campName, onLoop, openCamp } from './camp.suite.ts';
import { setAuthorityAside } from './certificates.ts';
import { addressesOf, listInterfaces } from './interfaces.ts';
import { campNetwork } from './open.ts';
import { closeNetwork, hostNameOf, readNetwork, writeNetwork } from './settings.ts';

let camp: Camp | null = null;
afterEach(async () => {
  await camp?.close();
  camp = null;
});

/** What this process listens on, told by the system: "127.0.0.1:41234". */
function listening(): ReadonlySet<string> {
  const lines = execFileSync('ss', ['-ltnpH'], { encoding: 'utf8' }).split('\n');
  const own = lines.filter((line) => line.includes(`pid=${process.pid},`));
  return new Set(own.map((line) => line.trim().split(/\s+/)[3] ?? ''));
}

const added = (before: ReadonlySet<string>) => [...listening()].filter((one) => !before.has(one));

describe.skipIf(!existsSync('/usr/bin/ss') && !existsSync('/bin/ss'))(
  'A2: bind addresses, told by ss',
  () => {
    it('control: the look at the system finds what listens on every address', async () => {
      const before = listening();
      const open: NetServer = createServer();
      await new Promise<void>((resolve) => open.listen(0, '0.0.0.0', resolve));
      expect(added(before)).toEqual([expect.stringMatching(/^(0\.0\.0\.0|\*):\d+$/)]);
      open.close();
    });

    it('before a person named an interface only the loop is bound, whatever the computer has', () =>
      inFolder(async (folder) => {
        const before = listening();
        const options = {
          dataFolder: join(folder, 'data'),
          webFolder: folder,
          port: 0,
          log: () => undefined,
        };
        const server = await startServer(options);
        expect(added(before)).toEqual([new URL(server.address).host]);
        expect(server.networkAddress()).toBeNull();
        await server.close();
      }));

    it('named, two ports more on that address and on no other', async () => {
      const before = listening();
      camp = await openCamp();
      const hosts = [camp.server.address, camp.network, camp.installer].map(
        (address) => new URL(address).host,
      );
      expect(added(before).sort()).toEqual(hosts.sort());
    });
  },
);

describe('the camp network', () => {
  const named = listInterfaces()[0];
  it.skipIf(named === undefined)('on a real interface is bound to its address', () =>
    inFolder(async (dataFolder) => {
      writeNetwork(dataFolder, { ...onLoop, interface: named?.name ?? '' });
      const server = await startServer({ dataFolder, webFolder: dataFolder, port: 0, log: () => undefined });
      const { hostname, port } = new URL(server.networkAddress() ?? '');
      expect(hostname.replace(/[[\]]/g, '')).toBe(named?.addresses[0]);
      const authority = await ask(`${server.address}/api/pairing/offers`, { method: 'POST' });
      expect(authority.status).toBe(201);
      expect(await reached(hostname, Number(port))).toBe(true);
      await server.close();
      expect(await reached(hostname, Number(port))).toBe(false);
    }),
  );

  it('an interface without an address stops nothing here: it is said once, and opened when it comes', () =>
    inFolder(async (dataFolder) => {
      const log: string[] = [];
      writeNetwork(dataFolder, { ...onLoop, interface: 'wlan9' });
      const server = await startServer({
        dataFolder,
        webFolder: dataFolder,
        port: 0,
        log: (line) => log.push(line),
      });
      expect((await ask(`${server.address}/api/health`, {})).status).toBe(200);
      const refused = await ask(`${server.address}/api/pairing/offers`, { method: 'POST' });
      expect([refused.status, JSON.parse(refused.text).what]).toEqual([
        409,
        'wlan9 has no address: no tablet reaches this computer',
      ]);
      await server.close();
      const network = campNetwork(dataFolder, (line) => log.push(line));
      await network.look();
      await network.look();
      await network.close();
      expect(log.filter((line) => line.includes('wlan9'))).toHaveLength(2);
    }));

  it('follows the settings while it runs: off, on again, another port; the authority stays the same', async () => {
    camp = await openCamp();
    const first = new URL(camp.network);
    closeNetwork(camp.dataFolder);
    await expect.poll(() => camp?.server.networkAddress(), { timeout: 12_000 }).toBeNull();
    expect(await reached(first.hostname, Number(first.port))).toBe(false);
    writeNetwork(camp.dataFolder, { ...onLoop, isNameKnown: true });
    await expect
      .poll(() => camp?.server.networkAddress(), { timeout: 12_000 })
      .toMatch(new RegExp(`^https://${campName}:`));
    const { authority } = camp;
    const { port } = new URL(camp.server.networkAddress() ?? '');
    expect((await ask(`https://127.0.0.1:${port}/api/health`, { ca: authority })).status).toBe(200);
  }, 30_000);

  it('an authority that was set aside is followed by a new one while the server runs', async () => {
    camp = await openCamp();
    const before = camp.authority;
    setAuthorityAside(camp.dataFolder, Date.now());
    const installer = () => ask(`${camp?.installer}/firnbook-camp.crt`, {}).catch(() => null);
    const closed = async () => (await installer()) === null;
    // Both ports are new ones (0 in the settings): the old page is gone.
    await expect.poll(closed, { timeout: 12_000 }).toBe(true);
    await expect.poll(() => camp?.server.networkAddress(), { timeout: 12_000 }).not.toBeNull();
    expect(readFileSync(join(camp.dataFolder, 'network', 'authority.pem'), 'utf8').trim()).not.toBe(
      before.trim(),
    );
  }, 30_000);

  it('settings and devices that can not be read close the network and nothing else', () =>
    inFolder(async (dataFolder) => {
      for (const [file, words] of [
        ['network.json', 'Say it again: firnbook network use'],
        ['devices.json', 'pair the devices again'],
      ] as const) {
        writeNetwork(dataFolder, onLoop);
        const path = join(dataFolder, 'network', file);
        writeFileSync(path, '{"interface":"lo",');
        const log: string[] = [];
        const server = await startServer({
          dataFolder,
          webFolder: dataFolder,
          port: 0,
          log: (line) => log.push(line),
        });
        expect((await ask(`${server.address}/api/campaigns`, {})).status).toBe(200);
        expect(
          (await ask(`${server.address}/api/pairing/offers`, { method: 'POST' })).status,
        ).toBeGreaterThan(400);
        expect(log.join('\n')).toContain(words);
        await server.close();
        rmSync(path);
      }
    }));

  it('a port that is taken is said with what to do, and this computer works on', () =>
    inFolder(async (dataFolder) => {
      const taken = createServer();
      const port = await new Promise<number>((resolve) =>
        taken.listen(0, '127.0.0.1', () => resolve((taken.address() as { port: number }).port)),
      );
      writeNetwork(dataFolder, { ...onLoop, port });
      const log: string[] = [];
      const server = await startServer({
        dataFolder,
        webFolder: dataFolder,
        port: 0,
        log: (line) => log.push(line),
      });
      expect(server.networkAddress()).toBeNull();
      expect(log.join('\n')).toContain(`Port ${port} on 127.0.0.1 is in use`);
      expect((await ask(`${server.address}/api/health`, {})).status).toBe(200);
      await server.close();
      taken.close();
    }));
});

describe('A3: TLS', () => {
  const shake = (address: string, options: object) =>
    new Promise<string>((resolve) => {
      const { hostname, port } = new URL(address);
      const socket = connect({ host: hostname, port: Number(port), ...options }, () => {
        resolve(`${socket.getProtocol()} ${socket.getCipher().name}`);
        socket.destroy();
      });
      socket.once('error', (error: NodeJS.ErrnoException) => resolve(`refused ${error.code}`));
    });

  it('speaks 1.3 and 1.2, and nothing older', async () => {
    camp = await openCamp();
    const ca = camp.authority;
    expect(await shake(camp.network, { ca })).toMatch(/^TLSv1\.3 /);
    expect(await shake(camp.network, { ca, maxVersion: 'TLSv1.2' })).toMatch(/^TLSv1\.2 ECDHE-ECDSA-/);
    for (const version of ['TLSv1', 'TLSv1.1'])
      expect(
        await shake(camp.network, {
          ca,
          minVersion: version,
          maxVersion: version,
          // At this level OpenSSL still speaks the old versions, so that it is the server who refuses.
          ciphers: 'ALL:@SECLEVEL=0',
        }),
      ).toMatch(/^refused ERR_SSL_TLSV1_ALERT_PROTOCOL_VERSION|^refused ERR_SSL_.*PROTOCOL/);
  });

  const hasOpenssl = spawnSync('openssl', ['version']).status === 0;
  it.skipIf(!hasOpenssl)(
    'of all suites of OpenSSL for 1.2 only those with forward secrecy and authenticated encryption',
    async () => {
      camp = await openCamp();
      const all = execFileSync('openssl', ['ciphers', '-tls1_2', 'ALL:@SECLEVEL=0'], { encoding: 'utf8' });
      const suites = all
        .trim()
        .split(':')
        .filter((name) => !name.startsWith('TLS_'));
      expect(suites.length).toBeGreaterThan(20);
      const taken: string[] = [];
      for (const ciphers of suites) {
        const said = await shake(camp.network, {
          ca: camp.authority,
          maxVersion: 'TLSv1.2',
          ciphers: `${ciphers}:@SECLEVEL=0`,
        });
        if (!said.startsWith('refused')) taken.push(ciphers);
      }
      expect(taken.sort()).toEqual([
        'ECDHE-ECDSA-AES128-GCM-SHA256',
        'ECDHE-ECDSA-AES256-GCM-SHA384',
        'ECDHE-ECDSA-CHACHA20-POLY1305',
      ]);
    },
  );

  it('only who trusts this camp gets through, and under its own names alone', async () => {
    camp = await openCamp();
    const other = await openCamp();
    expect(await shake(camp.network, {})).toMatch(/^refused (UNABLE|SELF_SIGNED|UNABLE_TO_VERIFY)/);
    expect(await shake(camp.network, { ca: other.authority })).toMatch(/^refused/);
    expect(await shake(camp.network, { ca: camp.authority, servername: campName })).toMatch(/^TLSv1\.3/);
    expect(await shake(camp.network, { ca: camp.authority, servername: 'other.internal' })).toBe(
      'refused ERR_TLS_CERT_ALTNAME_INVALID',
    );
    await other.close();
  });

  it('the fingerprint that is shown is that of the certificate that is served', async () => {
    camp = await openCamp();
    const { url } = await camp.offer();
    const shown = /authority=([0-9A-F]{64})$/.exec(url)?.[1];
    expect(new X509Certificate(camp.authority).fingerprint256.replaceAll(':', '')).toBe(shown);
  });
});

describe('settings', () => {
  it.each([
    ['ceredin', 'ceredin.internal'],
    ['Camp.Example', 'camp.example'],
    ['a-1', 'a-1.internal'],
  ])('the name "%s" is %s', (said, name) => expect(hostNameOf(said)).toBe(name));

  it.each([
    '',
    ' ',
    '-a',
    'a_b',
    'a..b',
    '192.168.7.2',
    'é',
    'a b',
    'x'.repeat(50),
    '*.internal',
    'a.internal.',
  ])('"%s" is no host name', (said) => expect(hostNameOf(said)).toBeNull());

  it('come back as they were kept', () =>
    inFolder(async (folder) => {
      expect(readNetwork(folder)).toBeNull();
      writeNetwork(folder, { ...onLoop, port: 7443, installPort: 7411 });
      expect(readNetwork(folder)).toEqual({ ...onLoop, port: 7443, installPort: 7411 });
      closeNetwork(folder);
      expect(readNetwork(folder)).toBeNull();
    }));

  it("the computer's own loop is never offered as an interface", () => {
    expect(listInterfaces().map(({ name }) => name)).not.toContain(onLoop.interface);
    expect(addressesOf(onLoop.interface)).toContain('127.0.0.1');
    expect(addressesOf('none0')).toEqual([]);
  });
});

function reached(host: string, port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect({ host: host.replace(/[[\]]/g, ''), port, rejectUnauthorized: false }, () => {
      socket.destroy();
      resolve(true);
    });
    socket.once('error', () => resolve(false));
  });
}
