import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { listInterfaces, openDevices, readNetwork, startServer, writeNetwork } from '@firnbook/server';
import { openDeviceKey } from '@firnbook/storage/sqlite';
import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

const loop =
  Object.entries(networkInterfaces()).find(([, all]) => all?.some(({ internal }) => internal))?.[0] ?? 'lo';
const [real] = listInterfaces();
const onLoop = { interface: loop, name: 'ceredin.internal', isNameKnown: false, port: 0, installPort: 0 };

/** The server of a data folder in this process, with its network open on the loop. */
const serving = async (data: string, work: () => Promise<void>): Promise<void> => {
  writeNetwork(data, onLoop);
  const server = await startServer({ dataFolder: data, webFolder: data, port: 0, log: () => undefined });
  try {
    await work();
  } finally {
    await server.close();
  }
};

describe('firnbook network', () => {
  it('lists the interfaces and says that nobody else reaches the book yet', () =>
    inFolder(async (data) => {
      const { code, out } = await firnbook('network', '--data', data);
      expect(code).toBe(0);
      expect(out).toContain('Only this computer reaches the book');
      for (const { name } of listInterfaces()) expect(out).toContain(`  ${name}  `);
    }));

  it.skipIf(real === undefined)('use keeps the choice; again it keeps what was not said; off closes', () =>
    inFolder(async (data) => {
      const name = real?.name ?? '';
      const used = await firnbook('network', 'use', name, '--name', 'Ceredin', '--data', data);
      expect(used).toMatchObject({ code: 0, err: '' });
      expect(used.out).toContain(
        `Tablets may come over ${name}, to ceredin.internal. The server does it at its`,
      );
      const first = {
        interface: name,
        name: 'ceredin.internal',
        isNameKnown: false,
        port: 7443,
        installPort: 7411,
      };
      expect(readNetwork(data)).toEqual(first);
      await firnbook('network', 'use', name, '--name-known', '--port', '8443', '--data', data);
      expect(readNetwork(data)).toEqual({ ...first, isNameKnown: true, port: 8443 });
      expect((await firnbook('network', '--data', data)).out).toContain('<- tablets come over this one');
      await firnbook('network', 'off', '--data', data);
      expect(readNetwork(data)).toBeNull();
    }),
  );

  it.each([
    [['use', 'wlan9', '--name', 'x'], 'there is no interface wlan9 with an address'],
    [['use', loop, '--name', 'x'], `there is no interface ${loop} with an address`],
    [['use', real?.name ?? 'wlan9'], real ? 'has no name yet' : 'no interface'],
    [['use', real?.name ?? 'wlan9', '--name', '10.0.0.1'], real ? 'is no host name' : 'no interface'],
    [['use', real?.name ?? 'wlan9', '--name', 'x', '--port', 'y'], real ? '"y" is no port' : 'no interface'],
    [['use'], "missing required argument 'interface'"],
    [['on'], 'too many arguments'],
  ])('%s is refused with words', (words, says) =>
    inFolder(async (data) => {
      const { code, err } = await firnbook('network', ...words, '--data', data);
      expect(code).toBe(2);
      expect(err).toContain(says);
      expect(readNetwork(data)).toBeNull();
    }),
  );

  it.skipIf(real === undefined)('another name needs a new certificate, and says what that costs', () =>
    inFolder(async (data) => {
      await serving(data, async () => undefined);
      const use = (...more: readonly string[]) =>
        firnbook('network', 'use', real?.name ?? '', '--name', 'other', '--data', data, ...more);
      const refused = await use();
      expect(refused.code).toBe(2);
      expect(refused.err).toContain('tablets installed is for ceredin.internal');
      expect((await use('--new-authority')).code).toBe(0);
      expect(readNetwork(data)?.name).toBe('other.internal');
      const { out } = await firnbook('network', '--data', data);
      expect(out).not.toContain('Certificate of the camp');
    }),
  );
});

describe('firnbook pair', () => {
  it('without a server says so; without a network says which command opens it', () =>
    inFolder(async (data) => {
      const alone = await firnbook('pair', '--data', data);
      expect([alone.code, alone.err]).toEqual([2, expect.stringContaining('Start it first: firnbook start')]);
      const server = await startServer({ dataFolder: data, webFolder: data, port: 0, log: () => undefined });
      const closed = await firnbook('pair', '--data', data);
      await server.close();
      expect([closed.code, closed.err]).toEqual([2, expect.stringContaining('no interface was named')]);
    }));

  it('says both addresses, the fingerprint, and the code to type', () =>
    inFolder((data) =>
      serving(data, async () => {
        const { code, out } = await firnbook('pair', '--data', data);
        expect(code).toBe(0);
        expect(out).toMatch(/certificate, at http:\/\/127\.0\.0\.1:\d+\n/);
        expect(out).toMatch(/https:\/\/127\.0\.0\.1:\d+\/pair#token=[\w-]{27}&authority=[0-9A-F]{64}\n/);
        expect(out).toMatch(/SHA-256\): ([0-9A-F]{2}:){31}[0-9A-F]{2}\n/);
        expect(out).toMatch(/type [0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{2}\n$/);
      }),
    ));
});

describe('firnbook devices', () => {
  it('lists and revokes with the server running, and without it', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      for (const name of ['tablet 1', 'drill tent']) openDevices(data).add(name);
      await serving(data, async () => {
        expect((await firnbook('devices', '--data', data)).out).toMatch(
          /^tablet 1 {4}seen [\s\S]*\ndrill tent {2}seen/,
        );
        const revoked = await firnbook('devices', 'revoke', 'tablet 1', '--data', data);
        expect(revoked.out).toBe('tablet 1 is let in no more. What it wrote stays in the book.\n');
      });
      expect((await firnbook('devices', 'revoke', 'drill tent', '--data', data)).code).toBe(0);
      const again = await firnbook('devices', 'revoke', 'drill tent', '--data', data);
      expect([again.code, again.err]).toEqual([
        2,
        expect.stringContaining('no device of that name may come in'),
      ]);
      const { out } = await firnbook('devices', '--data', data);
      expect(out.match(/revoked \d{4}-\d\d-\d\d \d\d:\d\d/g)).toHaveLength(2);
    }));

  it('say what each wrote, and what came after it was revoked; so does verify', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      await beginCampaign(data);
      const words = 'log|weather|temperature=-14 °C|--campaign|Ceredin Saddle|--initials|KM';
      const log = () => firnbook(...words.split('|'), '--data', data);
      expect((await log()).code).toBe(0);
      // the command line's own key stands for a tablet's
      const { key } = openDeviceKey(join(data, 'command-line'));
      openDevices(data).add('tablet 3', key);
      const count = async (...words: readonly string[]) => (await firnbook(...words, '--data', data)).out;
      const before = Number(/: (\d+) entries$/m.exec(await count('devices'))?.[1]);
      expect(before).toBeGreaterThan(1);
      expect(await count('verify')).toContain(`\n  tablet 3: ${before} entries\n`);

      await firnbook('devices', 'revoke', 'tablet 3', '--data', data);
      expect(await count('devices')).toContain(`: ${before} entries\n`);
      await log();
      const after = /: (\d+) entries, (\d+) came after it was revoked, (\d+) made after that by its clock$/m;
      const [, all, came, made] = after.exec(await count('devices')) ?? [];
      expect(Number(all) - Number(came)).toBe(before);
      expect(made).toBe(came);
      expect(await count('verify')).toMatch(
        /\n {2}tablet 3, revoked \d{4}-\d\d-\d\d: \d+ entries, \d+ came after/,
      );
      // the same counts from a server
      await serving(data, async () => {
        expect(await count('devices')).toMatch(
          new RegExp(`Ceredin Saddle: ${all} entries, ${came} came after`),
        );
      });
      expect(JSON.parse(await count('verify', '--json'))[0].devices).toMatchObject([
        { name: 'tablet 3', entries: Number(all), came: Number(came) },
      ]);
    }));

  it('says so where there are none, and where there is no book', () =>
    inFolder(async (data) => {
      expect((await firnbook('devices', '--data', data)).out).toContain('No device is paired');
      expect((await firnbook('devices', '--data', join(data, 'nowhere'))).err).toContain('no data folder');
    }));
});
