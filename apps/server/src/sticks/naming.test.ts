import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { platform } from 'node:os';
import { join } from 'node:path';
import { nameStick } from '@firnbook/storage/sqlite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { temporaryFolder } from '../folders.suite.ts';
import { type Server, startServer } from '../start.ts';
import { knownSticks } from './known.ts';
import type { NamingState } from './naming.ts';
import { newSticks } from './places.ts';

/** A disk in memory stands for a stick: it is another medium than the one that the book lies on. */
const memory = '/dev/shm';

describe.skipIf(platform() !== 'linux')('a stick that has no name yet', () => {
  const folder = temporaryFolder();
  let media: string;
  let server: Server;
  let data: string;
  const stick = () => join(media, 'KINGFISH');

  beforeAll(async () => {
    media = mkdtempSync(join(memory, 'firnbook-media-'));
    mkdirSync(join(stick(), 'photographs'), { recursive: true });
    writeFileSync(join(stick(), 'photographs', 'saddle.jpg'), 'of the Ceredin Saddle');
    data = join(folder.path, 'data');
    mkdirSync(data);
    server = await startServer({
      dataFolder: data,
      webFolder: data,
      port: 0,
      media: [media],
      log: () => undefined,
    });
  });
  afterAll(async () => {
    await server.close();
    rmSync(media, { recursive: true });
    folder.remove();
  });

  const look = async () => {
    const answer = await fetch(`${server.address}/api/sticks/unnamed`);
    return (await answer.json()) as {
      readonly sticks: readonly {
        readonly place: string;
        readonly label: string;
        readonly name: string | null;
      }[];
      readonly naming: NamingState | null;
    };
  };
  const post = async (path: string, body: unknown = {}) => {
    const answer = await fetch(`${server.address}${path}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    });
    return { status: answer.status, says: (await answer.json()) as { readonly what?: string } };
  };
  const name = (more: object = {}) =>
    post('/api/sticks/unnamed', {
      place: stick(),
      name: 'red',
      test: 'none',
      withoutNetwork: false,
      ...more,
    });
  const ended = async (): Promise<NamingState['end']> => {
    for (;;) {
      const { naming } = await look();
      if (naming?.end) return naming.end;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  };

  it('is found by its label, with the room that it says to have; this computer’s own disks are not', async () => {
    const { sticks, naming } = await look();
    expect(naming).toBeNull();
    expect(sticks).toMatchObject([{ place: stick(), label: 'KINGFISH', name: null, canWrite: true }]);
    const own = temporaryFolder();
    mkdirSync(join(own.path, 'a-folder'));
    expect(newSticks([], data, [own.path])).toEqual([]);
    // control: nothing but the disk that it lies on keeps it out
    expect(newSticks([], memory, [own.path, media])).toEqual([]);
    own.remove();
  });

  it.each<[string, object, number]>([
    ['no name', { name: ' ' }, 400],
    ['a name that steers a terminal', { name: '\u001b[31mred' }, 400],
    ['a long name', { name: 'r'.repeat(41) }, 400],
    ['a place that is no stick', { place: '/etc' }, 404],
    ['the book’s own folder', { place: '.' }, 404],
    ['no such test', { test: '7' }, 400],
    ['more than is asked', { folder: '/' }, 400],
  ])('%s is refused, and nothing is written', async (_what, wrong, status) => {
    expect((await name(wrong)).status).toBe(status);
    expect(readdirSync(stick())).toEqual(['photographs']);
    expect(knownSticks(data)).toEqual([]);
  });

  it('is tested, and the test can be stopped: then it is as it was', async () => {
    expect((await name({ test: 'all' })).status).toBe(202);
    expect((await name()).says.what).toBe('Another stick is being tested');
    while ((await look()).naming?.far == null) await new Promise((resolve) => setTimeout(resolve, 30));
    const { far, end } = (await look()).naming!;
    expect([far!.doing, end]).toEqual(['writing', null]);
    expect(far!.bytes).toBeLessThan(far!.of);
    await post('/api/sticks/unnamed/stop');
    expect(await ended()).toEqual({ is: 'stopped' });
    expect(readdirSync(stick())).toEqual(['photographs']);
    expect(knownSticks(data)).toEqual([]);
  }, 60_000);

  it('after a short test it is known to the book; what lay on it is untouched', async () => {
    expect((await name({ test: 'short' })).status).toBe(202);
    expect(await ended()).toEqual({ is: 'named', testedBytes: 256 * 1024 * 1024 });
    expect(knownSticks(data)).toMatchObject([
      { name: 'red', folder: stick(), withoutNetwork: false, tested: { bytes: 256 * 1024 * 1024 } },
    ]);
    expect(readdirSync(stick()).sort()).toEqual(['firnbook-stick.json', 'photographs']);
    expect(readFileSync(join(stick(), 'photographs', 'saddle.jpg'), 'utf8')).toBe('of the Ceredin Saddle');
    expect((await look()).sticks).toEqual([]);
    const known = (await (await fetch(`${server.address}/api/sticks`)).json()) as unknown;
    expect(known).toMatchObject([{ name: 'red', isIn: true, carriesNetwork: true }]);
    expect((await name()).status).toBe(404);
  }, 60_000);

  it('of another book keeps the name that is written on it', async () => {
    rmSync(stick(), { recursive: true });
    const other = join(media, 'OSPREY');
    mkdirSync(other);
    nameStick(other, { id: 'of-another-book', name: 'blue' });
    expect((await look()).sticks).toMatchObject([{ label: 'OSPREY', name: 'blue' }]);
    await name({ place: other, name: 'green', withoutNetwork: true });
    expect(await ended()).toEqual({ is: 'named', testedBytes: null });
    expect(knownSticks(data).at(-1)).toMatchObject({
      id: 'of-another-book',
      name: 'blue',
      withoutNetwork: true,
      tested: null,
    });
  });
});
