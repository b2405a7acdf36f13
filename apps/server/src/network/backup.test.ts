import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { listFilesBackups, lockFolder, nameStick } from '@firnbook/storage/sqlite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openCampaigns } from '../campaigns.ts';
import { inFolder, temporaryFolder } from '../folders.suite.ts';
import { startServer } from '../start.ts';
import { knowStick, watchSticks } from '../sticks/index.ts';
import { backUpNetwork, lacksNetwork, networkOn, recoverNetwork, takeNetworkOff } from './backup.ts';
import { ask, type Camp, newKey, openCamp, openCampIn } from './camp.suite.ts';
import { openDevices } from './devices.ts';

const shelf = (stick: string) => join(stick, 'camp_network');

describe('the camp network on a stick', () => {
  let camp: Camp;
  let cookie: string;
  const folder = temporaryFolder();
  const stick = join(folder.path, 'stick');

  beforeAll(async () => {
    camp = await openCamp();
    cookie = await camp.pair('tablet 1', newKey());
    await camp.pair('lost one');
    const list = (await (await fetch(`${camp.server.address}/api/devices`)).json()) as {
      id: string;
      name: string;
    }[];
    const lost = list.find(({ name }) => name === 'lost one')?.id;
    await fetch(`${camp.server.address}/api/devices/${lost}/revoke`, { method: 'POST' });
    writeFileSync(join(camp.dataFolder, 'network', 'pins.json'), '[]\n');
    backUpNetwork(camp.dataFolder, stick);
  }, 60_000);
  afterAll(async () => {
    await camp.close();
    folder.remove();
  });

  /** A blank computer that takes the network from a stick. */
  const blank = async (from: string, work: (again: Camp) => Promise<void>) => {
    const other = temporaryFolder();
    recoverNetwork(join(other.path, 'data'), from);
    const again = await openCampIn(other);
    await work(again).finally(() => again.close());
  };

  it('brings a new computer the same authority, and a tablet comes in with what it has', async () => {
    expect(networkOn(stick)).toMatchObject({ host: 'ceredin.internal', devices: 1, generation: 1 });
    await blank(stick, async (again) => {
      expect(again.authority).toBe(camp.authority);
      // it trusts the authority that was installed on it, and shows the credential of its first pairing
      const come = (headers: Record<string, string>) =>
        ask(`${again.network}/api/campaigns`, { ca: camp.authority, headers });
      expect((await come({ cookie })).status).toBe(200);
      // controls: a stranger does not, and a computer without the copy is not even believed
      expect((await come({})).status).toBe(401);
      const stranger = await openCamp();
      await expect(ask(`${stranger.network}/api/device`, { ca: camp.authority })).rejects.toThrow(
        /certificate|signature/,
      );
      await stranger.close();
      // who was revoked there is revoked here
      const list = (await (await fetch(`${again.server.address}/api/devices`)).json()) as {
        name: string;
        revokedAt: string | null;
      }[];
      expect(list.map(({ name, revokedAt }) => [name, revokedAt === null])).toEqual([
        ['tablet 1', true],
        ['lost one', false],
      ]);
    });
  }, 60_000);

  it('holds the key, and not the server’s own certificate nor what was set aside', () => {
    const [generation] = listFilesBackups(shelf(stick));
    expect(readdirSync(generation!).sort()).toEqual([
      'authority.key.pem',
      'authority.pem',
      'backup.json',
      'devices.json',
      'network.json',
      'pins.json',
    ]);
  });

  it('a copy that was changed is refused; an older whole one is taken instead, and it says so', () =>
    inFolder(async (place) => {
      const own = join(place, 'stick');
      backUpNetwork(camp.dataFolder, own);
      const network = (name: string) => join(place, name);
      const [first] = listFilesBackups(shelf(own));
      const key = join(first!, 'authority.key.pem');
      const before = readFileSync(key, 'utf8');
      writeFileSync(key, before.replace('KEY', 'KEx'));
      expect(() => recoverNetwork(network('a'), own)).toThrow(/authority.key.pem is not what was written/);
      expect(existsSync(join(network('a'), 'network'))).toBe(false);
      expect(() => networkOn(own)).toThrow(/is not what was written/);
      // damaged, it is due again; then the newest is whole
      expect(lacksNetwork(camp.dataFolder, own)).toBe(true);
      backUpNetwork(camp.dataFolder, own);
      expect(recoverNetwork(network('b'), own)).toMatchObject({ generation: 2, passedOver: [] });
      const [, second] = listFilesBackups(shelf(own));
      rmSync(join(second!, 'devices.json'));
      // control: the first as it was written is taken
      writeFileSync(key, before);
      const back = recoverNetwork(network('c'), own);
      expect(back.generation).toBe(1);
      expect(back.passedOver).toEqual([expect.stringContaining('devices.json is gone')]);
    }));

  it('a whole copy of something that is of no use is refused', () =>
    inFolder(async (place) => {
      const harmed = (name: string, text: string): string => {
        const data = join(place, name);
        mkdirSync(join(data, 'network'), { recursive: true });
        for (const file of readdirSync(join(camp.dataFolder, 'network')))
          if (/\.(json|pem)$/.test(file))
            writeFileSync(join(data, 'network', file), readFileSync(join(camp.dataFolder, 'network', file)));
        writeFileSync(join(data, 'network', name), text);
        backUpNetwork(data, join(data, 'stick'));
        return join(data, 'stick');
      };
      const server = readFileSync(join(camp.dataFolder, 'network', 'server.key.pem'), 'utf8');
      for (const [name, text, says] of [
        ['authority.key.pem', server, 'not that of the certificate'],
        ['devices.json', '[{"name":"tablet 1"}]', 'list of devices can not be read'],
        ['network.json', '{"interface":7}', 'settings can not be read'],
      ] as const)
        expect(() => recoverNetwork(join(place, `from-${name}`), harmed(name, text))).toThrow(says);
    }));

  it('overwrites no camp network', () =>
    inFolder(async (data) => {
      openDevices(data).add('tablet of another camp');
      const before = readFileSync(join(data, 'network', 'devices.json'), 'utf8');
      expect(() => recoverNetwork(data, stick)).toThrow('has a camp network of its own already');
      expect(readFileSync(join(data, 'network', 'devices.json'), 'utf8')).toBe(before);
      expect(readdirSync(join(data, 'network'))).toEqual(['devices.json']);
    }));

  it('gets a new generation for another device, and none because one was here again', () =>
    inFolder(async (data) => {
      let now = Date.UTC(2031, 0, 17, 9, 40);
      const devices = openDevices(data, () => now);
      const target = join(data, 'stick');
      expect(backUpNetwork(join(data, 'nothing'), target)).toBeNull();
      const { id } = devices.add('tablet 1').device;
      expect(backUpNetwork(data, target)?.generation).toBe(1);
      now += 600_000;
      devices.see(id);
      expect(lacksNetwork(data, target)).toBe(false);
      expect(backUpNetwork(data, target)).toBeNull();
      devices.add('tablet 2');
      expect(lacksNetwork(data, target)).toBe(true);
      expect(backUpNetwork(data, target)?.generation).toBe(2);
      expect(takeNetworkOff(target)).toBe(true);
      expect(networkOn(target)).toBeNull();
      expect(takeNetworkOff(target)).toBe(false);
    }));

  it('goes to a stick by itself, unless a person wanted it left out', () =>
    inFolder(async (data) => {
      openDevices(data).add('tablet 1');
      const places = ['red', 'blue'].map((name) => {
        const place = join(data, name);
        mkdirSync(place);
        const named = nameStick(place, { id: name, name });
        knowStick(data, { ...named, folder: place, tested: null, withoutNetwork: name === 'blue' });
        return place;
      });
      const lock = lockFolder(data, 'the test');
      const campaigns = openCampaigns(lock, () => undefined);
      await campaigns.checked();
      const sticks = watchSticks(data, campaigns, () => undefined);
      await sticks.look();
      expect(places.map((place) => networkOn(place)?.devices ?? null)).toEqual([1, null]);
      expect(sticks.states()).toMatchObject([
        { name: 'red', carriesNetwork: true, networkCopied: expect.any(String), trouble: null },
        { name: 'blue', carriesNetwork: false, networkCopied: null, trouble: null },
      ]);
      await sticks.stop();
      await campaigns.close();
      lock.release();
    }));

  it('is brought back while the server runs: tablets come in at once, and nothing is brought over it', async () => {
    const other = temporaryFolder();
    const data = join(other.path, 'data');
    mkdirSync(data);
    knowStick(data, { ...nameStick(stick, { id: 'red', name: 'red' }), folder: stick, tested: null });
    const server = await startServer({ dataFolder: data, webFolder: data, port: 0, log: () => undefined });
    const about = async () =>
      (await (await fetch(`${server.address}/api/sticks/red/network`)).json()) as { isHere: boolean };
    expect(await about()).toMatchObject({ isHere: false, network: { devices: 1, host: 'ceredin.internal' } });
    const recover = () => fetch(`${server.address}/api/sticks/red/recover-network`, { method: 'POST' });
    expect((await recover()).status).toBe(201);
    const network = server.networkAddress();
    const come = await ask(`${network}/api/campaigns`, { ca: camp.authority, headers: { cookie } });
    expect(come.status).toBe(200);
    expect((await about()).isHere).toBe(true);
    expect((await recover()).status).toBe(400);
    await server.close();
    // what the server noted since is the brought back list's, not an empty one's
    expect(openDevices(data).list()).toHaveLength(2);
    other.remove();
  }, 60_000);
});
