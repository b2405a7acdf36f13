import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { type Command, createBook } from '@firnbook/campaign';
import { digest } from '@firnbook/journal';
import { describe, expect, it } from 'vitest';
import { newCampaign, post, runLogged, sync, tablet } from './crew.suite.ts';
import { inFolder } from './folders.suite.ts';
import { readServerInfo } from './server-info.ts';
import { type Server, startServer } from './start.ts';

const start = (folder: string): Promise<Server> =>
  startServer({
    dataFolder: join(folder, 'data'),
    webFolder: join(folder, 'web'),
    port: 0,
    log: () => undefined,
  });

const read = async (address: string, path: string) => (await fetch(address + path)).json();

describe('startServer', () => {
  it('J4: what a device brought is there, byte for byte, after close and start', () =>
    inFolder(async (folder) => {
      const device = await tablet(newCampaign());
      await device.write(Array.from({ length: 30 }, (_, index) => runLogged(index)));
      const first = await start(folder);
      await sync(device, first.address);
      await first.close();
      const second = await start(folder);
      const held = await read(second.address, `/api/campaigns/${device.campaign}/digest`);
      expect(held).toEqual({ entries: 30, digest: digest(device.ledger) });
      expect(device.safety('camp').missing()).toEqual([]);
      const other = await tablet(device.campaign);
      await other.write([runLogged(99)]);
      await sync(other, second.address);
      expect(other.ledger.size).toBe(31);
      await second.close();
    }));

  it('lists the campaigns with name, number of entries and epoch, corrections included', () =>
    inFolder(async (folder) => {
      const server = await start(folder);
      const device = await tablet(newCampaign());
      const book = createBook();
      device.subscribe((added) => void book.add(added));
      const decide = async (command: Command) => {
        const context = { by: newCampaign(), observedAt: '2031-01-17T09:40:00+01:00', newId: newCampaign };
        const decision = book.decide(command, context);
        if (!decision.ok) throw new Error(decision.refusals[0]?.what.key);
        await device.write(decision.drafts);
        await sync(device, server.address);
      };
      const list = () => read(server.address, '/api/campaigns');
      const readings = { name: 'Ceredin Sadle', invented: 'yes' };
      await decide({ do: 'open campaign', readings, crew: [{ initials: 'EV' }] });
      const { epoch } = device.safety('camp');
      const line = { id: device.campaign, invented: true, epoch };
      const entries = device.ledger.size;
      expect(await list()).toEqual([{ ...line, name: 'Ceredin Sadle', entries }]);
      const thing = book.view().opened?.id ?? '';
      await decide({
        do: 'correct',
        thing,
        readings: { name: 'Ceredin Saddle' },
        reason: 'a letter was missing',
      });
      expect(await list()).toEqual([{ ...line, name: 'Ceredin Saddle', entries: entries + 1 }]);
      await server.close();
    }));

  it('refuses a data folder that another server has, and says which process', () =>
    inFolder(async (folder) => {
      const server = await start(folder);
      await expect(start(folder)).rejects.toThrow(`process ${process.pid}`);
      await server.close();
      await (await start(folder)).close();
    }));

  it('refuses a port in use with words, and gives the folder back', () =>
    inFolder(async (folder) => {
      const server = await start(join(folder, 'one'));
      const port = Number(new URL(server.address).port);
      const options = { dataFolder: join(folder, 'two'), webFolder: folder, log: () => undefined };
      await expect(startServer({ ...options, port })).rejects.toThrow(`Port ${port} on 127.0.0.1 is in use`);
      await (await startServer({ ...options, port: 0 })).close();
      await server.close();
    }));

  it('leaves its address in the data folder while it runs, and takes it away at close', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      const server = await start(folder);
      expect(readServerInfo(data)).toEqual({ address: server.address, pid: process.pid });
      await server.close();
      await server.close();
      expect(readServerInfo(data)).toBeNull();
    }));

  it('makes no journal for a device that asks about a campaign without holding anything of it', () =>
    inFolder(async (folder) => {
      const server = await start(folder);
      const device = await tablet(newCampaign());
      await expect(post(device.ask('camp'), server.address)).rejects.toThrow('no such campaign');
      expect(existsSync(join(folder, 'data', 'campaigns', device.campaign))).toBe(false);
      await server.close();
    }));

  it('two devices that bring one new campaign at once both end with everything', () =>
    inFolder(async (folder) => {
      const server = await start(folder);
      const one = await tablet(newCampaign());
      const two = await tablet(one.campaign);
      await one.write([runLogged(1)]);
      await two.write([runLogged(2)]);
      await Promise.all([sync(one, server.address), sync(two, server.address)]);
      await sync(one, server.address);
      await sync(two, server.address);
      expect(digest(one.ledger)).toBe(digest(two.ledger));
      expect(one.ledger.size).toBe(2);
      await server.close();
    }));
});
