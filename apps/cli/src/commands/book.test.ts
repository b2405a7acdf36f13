import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startServer } from '@firnbook/server';
import { campaignPaths, listCampaigns, lockFolder } from '@firnbook/storage/sqlite';
import { describe, expect, it } from 'vitest';
import { contextOf, openDesk } from '../desk.ts';
import { fillWithDemo } from '../fill-with-demo.ts';
import { firnbook, inFolder } from '../try.suite.ts';

const serve = (folder: string) =>
  startServer({ dataFolder: folder, webFolder: join(folder, 'web'), port: 0, log: () => undefined });

const begin = (folder: string, ...more: readonly string[]) =>
  firnbook(
    'new',
    'Ceredin Saddle',
    '--hole',
    'b',
    '--core',
    'CER-B',
    '--zero',
    'snow surface',
    '--initials',
    'KM',
    '--data',
    folder,
    ...more,
  );

const stateOf = async (folder: string) =>
  JSON.parse((await firnbook('state', '--json', '--data', folder)).out) as {
    where: string;
    campaigns: {
      id: string;
      name: string;
      entries: number;
      digest: string;
      holes: { letter: string; runs: number }[];
    }[];
  };

describe('firnbook new, state', () => {
  it('begins a campaign in a folder where no server runs, and says what is in it', () =>
    inFolder(async (folder) => {
      const made = await begin(folder);
      expect(made).toMatchObject({ code: 0, err: '' });
      expect(made.out).toContain('Campaign "Ceredin Saddle" is open with hole B');
      const state = await stateOf(folder);
      expect(state).toMatchObject({
        where: folder,
        campaigns: [{ name: 'Ceredin Saddle', holes: [{ letter: 'B', runs: 0 }] }],
      });
      expect(listCampaigns(folder)).toEqual([state.campaigns[0].id]);
    }));

  it('works through the running server, whose folder it may not touch, and finds the same entries there', () =>
    inFolder(async (folder) => {
      const server = await serve(folder);
      try {
        await begin(folder);
        const { where, campaigns } = await stateOf(folder);
        expect(where).toBe(server.address);
        const held = await fetch(`${server.address}/api/campaigns/${campaigns[0].id}/digest`);
        expect(await held.json()).toEqual({ entries: campaigns[0].entries, digest: campaigns[0].digest });
      } finally {
        await server.close();
      }
    }));

  it('is one device per data folder: all its entries form one chain, with server or without', () =>
    inFolder(async (folder) => {
      await begin(folder);
      const write = async (initials: string) => {
        const desk = await openDesk(folder);
        try {
          const [campaign = ''] = await desk.campaigns();
          const opened = await desk.open(campaign);
          const wish = { do: 'log', kind: 'person', readings: { initials } } as const;
          const decision = opened.book.decide(wish, contextOf(opened.book.view().people[0].id));
          if (!decision.ok) throw new Error('refused');
          await opened.write(decision.drafts);
          return [...opened.replica.ledger.devices()].length;
        } finally {
          await desk.close();
        }
      };
      expect(await write('AR')).toBe(1);
      const server = await serve(folder);
      expect(await write('TS')).toBe(1);
      await server.close();
      expect(await write('LO')).toBe(1);
      expect((await stateOf(folder)).campaigns[0].entries).toBe(8);
    }));

  it('a second command line at the same time is refused, so that the chain cannot fork', () =>
    inFolder(async (folder) => {
      await begin(folder);
      const server = await serve(folder);
      const desk = await openDesk(folder);
      try {
        const { code, err } = await firnbook('state', '--data', folder);
        expect(code).toBe(2);
        expect(err).toContain('another command line');
      } finally {
        await desk.close();
        await server.close();
      }
    }));

  it('says who holds the folder where that is no server', () =>
    inFolder(async (folder) => {
      const lock = lockFolder(folder, 'a copy program');
      const { code, err } = await begin(folder);
      lock.release();
      expect(code).toBe(2);
      expect(err).toContain(`a copy program (process ${process.pid}`);
    }));

  it('refuses a hole that is no letter, and a data folder that is not there', () =>
    inFolder(async (folder) => {
      expect((await begin(folder, '--hole', 'B2')).err).toContain('"B2" is no letter of a hole');
      expect((await firnbook('state', '--data', join(folder, 'none'))).err).toContain(
        'there is no data folder',
      );
    }));
});

describe('firnbook verify, backup', () => {
  it('verify ends with 0 on a sound book and with 1 on a changed entry, which it names', () =>
    inFolder(async (folder) => {
      await begin(folder);
      const sound = await firnbook('verify', '--data', folder);
      expect(sound).toMatchObject({ code: 0 });
      expect(sound.out).toMatch(/5 entries \(5 signed, 0 unsigned\), digest [0-9a-f]{64}, sound/);
      const [campaign] = listCampaigns(folder);
      const { journal } = campaignPaths(folder, campaign);
      const bytes = readFileSync(journal);
      const at = bytes.indexOf('"letter":"B"');
      expect(at).toBeGreaterThan(0);
      bytes.write('"letter":"C"', at);
      writeFileSync(journal, bytes);
      const damaged = await firnbook('verify', '--data', folder);
      expect(damaged.code).toBe(1);
      expect(damaged.out).toContain('DAMAGED');
      expect(damaged.out).toMatch(/The entry is damaged.*\(row 3, entry [0-9a-f-]{36}, /);
      // the command line's own copy is sound and goes on being shown
      const state = await firnbook('state', '--data', folder);
      expect(state.out).toContain('Ceredin Saddle');
      expect(state.err).toContain('The journal is damaged');
    }));

  it('J9: what the command line says is signed by a key of its own; without a key it is kept, unsigned, and it says so', () =>
    inFolder(async (folder) => {
      await begin(folder);
      const key = join(folder, 'command-line', 'device-key.pem');
      if (process.platform !== 'win32') expect(statSync(key).mode & 0o777).toBe(0o600);
      writeFileSync(key, 'torn');
      const said = await firnbook(
        ...['log', 'run', 'number=1', 'from=12,30 m', 'to=13,22 m'],
        ...['--campaign', 'Ceredin Saddle', '--initials', 'KM', '--data', folder],
      );
      expect(said.code).toBe(0);
      expect(said.err).toMatch(/This is not signed\. The key that signs entries can't be used/);
      const verdict = await firnbook('verify', '--data', folder);
      expect(verdict.out).toMatch(/6 entries \(5 signed, 1 unsigned\)/);
      expect(verdict.code).toBe(0);
    }));

  it('backup copies the book while the server runs; each copy is a new generation', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      await begin(data);
      const server = await serve(data);
      const [campaign] = listCampaigns(data);
      const stick = join(folder, 'stick');
      expect((await firnbook('backup', stick, '--data', data)).out).toContain('5 entries');
      expect((await firnbook('backup', stick, '--data', data)).code).toBe(0);
      await server.close();
      expect(existsSync(join(stick, campaign, 'generation-0002/journal.sqlite'))).toBe(true);
    }));
});

describe('firnbook depths --campaign', () => {
  it('writes byte for byte what the one-shot command writes on the same readings', () =>
    inFolder(async (folder) => {
      const data = join(folder, 'data');
      expect(await fillWithDemo(data)).toBeGreaterThan(50);
      expect(await fillWithDemo(data)).toBeNull();
      const at = (name: string) => join(folder, name);
      const book = await firnbook(
        'depths',
        ...['--hole', 'B'],
        '--campaign',
        'ceredin saddle',
        '--data',
        data,
        '--out',
        at('book'),
        '--readings',
      );
      const files = await firnbook(
        'depths',
        ...[
          '--runs',
          at('book/runs.csv'),
          '--pieces',
          at('book/pieces.csv'),
          '--soundings',
          at('book/soundings.csv'),
          '--cable-checks',
          at('book/cable-checks.csv'),
          '--zeros',
          at('book/zeros.csv'),
          '--strain',
          at('book/strain.csv'),
        ],
        ...['--out', at('files')],
      );
      expect([book.code, files.code]).toEqual([0, 0]);
      for (const name of ['depths.csv', 'findings.csv'])
        expect(readFileSync(at(`book/${name}`), 'utf8')).toBe(readFileSync(at(`files/${name}`), 'utf8'));
      const bottom = Number(
        readFileSync(at('book/depths.csv'), 'utf8').trimEnd().split('\n').at(-1)!.split(',')[6],
      );
      expect((await firnbook('state', '--data', data)).out).toContain(
        `core solved to ${bottom.toFixed(3)} m`,
      );
    }));

  it('names the campaigns there are where none is called so, and writes nothing', () =>
    inFolder(async (folder) => {
      await begin(folder);
      const out = join(folder, 'out');
      const { err, code } = await firnbook('depths', '--campaign', 'nowhere', '--data', folder, '--out', out);
      expect(code).toBe(2);
      expect(err).toContain('There are: Ceredin Saddle');
      expect(existsSync(out)).toBe(false);
    }));
});
