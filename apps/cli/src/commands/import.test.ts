import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openReplica } from '@firnbook/journal';
import { startServer } from '@firnbook/server';
import { campaignPaths, listCampaigns, openSqliteStore } from '@firnbook/storage/sqlite';
import { describe, expect, it } from 'vitest';
import { source } from '../camp.ts';
import { readInWorker } from '../import/read-in-worker.ts';
import { runProgram } from '../program.ts';
import { firnbook, inFolder } from '../try.suite.ts';

// Every file is invented.
const log =
  'Core log CER-B;;;;;;\nlogged by KM;;;;;;\nDate;Run;Depth;;Piece;Length;Break\n;;from;to;;;above\n;;m;m;;cm;\n' +
  '12.06.2026;1;0,00;0,98;1;95,2;unsure\n12.06.2026;2;0,98;1,95;1;53,1;fits\n13.06.2026;2;0,98;1,95;2;42,8;loss\n';

const begin = async (folder: string) => {
  const data = join(folder, 'data');
  const words = [
    '--hole',
    'B',
    '--core',
    'CER-B',
    '--zero',
    'snow surface',
    '--initials',
    'KM',
    '--data',
    data,
  ];
  await firnbook('new', 'Ceredin Saddle', ...words);
  const put = (name: string, bytes: string | Uint8Array): string => {
    const path = join(folder, name);
    writeFileSync(path, bytes);
    return path;
  };
  const bring = (file: string, ...more: readonly string[]) =>
    firnbook('import', file, '--campaign', 'ceredin saddle', '--initials', 'km', '--data', data, ...more);
  const entries = async (): Promise<number> => {
    const [campaign] = listCampaigns(data);
    const store = openSqliteStore(campaignPaths(data, campaign).journal, campaign);
    try {
      return (await openReplica(store, source)).ledger.size;
    } finally {
      await store.close();
    }
  };
  return { data, put, bring, entries };
};

/** The same program with a person who answers. */
const withPerson = async (answers: readonly string[], ...words: readonly string[]) => {
  const asked: string[] = [];
  let out = '';
  let err = '';
  const left = [...answers];
  const code = await runProgram(words, {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    isPerson: true,
    ask: async (question) => {
      asked.push(question);
      return left.shift() ?? '';
    },
    env: {},
  });
  return { code, out, err, asked };
};

describe('firnbook import', () => {
  it('shows what would be logged and writes nothing with --dry-run', () =>
    inFolder(async (folder) => {
      const { put, bring, entries } = await begin(folder);
      const done = await bring(put('log.csv', log), '--offset', '+5:45', '--dry-run');
      expect(done.code).toBe(0);
      expect(done.out).toContain('the file: 3 rows, each one run and piece');
      expect(done.out).toContain('run: number = Run, from = Depth from [m], to = Depth to [m]');
      expect(done.out).toContain('seen: Date, clock +05:45');
      expect(done.out).toContain('piece 2.2, 2026-06-13T12:00:00+05:45: run 2, number 2, length 42,8 cm');
      expect(done.out).toContain('Depth intervals of the file: everything closes.');
      expect(await entries()).toBe(5);
    }));

  it('does what docs/method/spreadsheets.md says: the worked example, word for word', () =>
    inFolder(async (folder) => {
      const page = readFileSync(new URL('../../../../docs/method/spreadsheets.md', import.meta.url), 'utf8');
      const block = (after: string): string => {
        const lines = page.slice(page.indexOf(after)).split('\n');
        const start = lines.findIndex((line) => line.startsWith('    '));
        const end = lines.findIndex((line, i) => i > start && !line.startsWith('    '));
        return lines
          .slice(start, end)
          .map((line) => `${line.slice(4)}\n`)
          .join('');
      };
      const { put, bring } = await begin(folder);
      const file = block('The file `log.csv`:');
      const words = ['--hole', 'B', '--offset', '+05:45'];
      const shown = await bring(put('log.csv', file), ...words, '--dry-run');
      expect(shown.out).toBe(block('--dry-run` says:'));
      await bring(put('log.csv', file), ...words, '--yes');
      const mended = await bring(put('log.csv', file.replace('94.O', '94,0')), ...words, '--yes');
      expect(mended.out).toContain('piece: 3 in the book already, 1 new');
      expect(mended.out).toContain('Logged: 1 rows of log.csv');
    }));

  it('logs after a yes, keeps the file byte for byte, and adds nothing when it comes again', () =>
    inFolder(async (folder) => {
      const { data, put, bring, entries } = await begin(folder);
      const bytes = Uint8Array.from(log.replaceAll('\n', '\r'), (one) => one.charCodeAt(0));
      const file = put('log.csv', bytes);
      const refused = await bring(file, '--offset', '+05:45');
      expect(refused.code).toBe(2);
      expect(refused.err).toContain('nobody has said yes; nothing was written');
      expect(await entries()).toBe(5);
      const done = await bring(file, '--offset', '+05:45', '--yes');
      expect(done).toMatchObject({ code: 0 });
      const digest = createHash('sha256').update(bytes).digest('hex');
      expect(done.out).toContain(
        `Logged: 5 rows of log.csv, 6 entries. The file is kept as it came, SHA-256 ${digest}.`,
      );
      const { attachments } = campaignPaths(data, listCampaigns(data)[0]);
      expect(readdirSync(attachments)).toEqual([digest]);
      expect(new Uint8Array(readFileSync(join(attachments, digest)))).toEqual(bytes);
      const again = await bring(file, '--yes');
      expect(again).toMatchObject({ code: 0 });
      expect(again.err).toContain('This layout was imported before');
      expect(again.out).toContain('There is nothing to log: nothing was written.');
      expect(await entries()).toBe(11);
      expect((await firnbook('state', '--data', data)).out).toContain('2 runs, 3 pieces');
    }));

  it('goes through the running server, whose folder it may not touch', () =>
    inFolder(async (folder) => {
      const { data, put, bring } = await begin(folder);
      const server = await startServer({
        dataFolder: data,
        webFolder: join(folder, 'web'),
        port: 0,
        log: () => undefined,
      });
      try {
        const file = put('log.csv', log);
        expect(await bring(file, '--offset', '+05:45', '--yes')).toMatchObject({ code: 0 });
        const [campaign] = listCampaigns(data);
        const digest = createHash('sha256').update(log).digest('hex');
        const kept = await fetch(`${server.address}/api/campaigns/${campaign}/attachments/${digest}`);
        expect(await kept.text()).toBe(log);
        const held = await fetch(`${server.address}/api/campaigns/${campaign}/digest`);
        expect(await held.json()).toMatchObject({ entries: 11 });
      } finally {
        await server.close();
      }
    }));

  it('asks a person what the file does not prove, and what was answered is remembered', () =>
    inFolder(async (folder) => {
      const { data, put, bring } = await begin(folder);
      const file = put(
        'runs.csv',
        'Date,Run,From (m),To (m)\n01/06/2026,1,0.00,0.98\n02/06/2026,2,0.98,1.95\n',
      );
      const words = ['import', file, '--campaign', 'Ceredin Saddle', '--initials', 'KM', '--data', data];
      const done = await withPerson(['1', '+25:00', '+05:45', 'yes'], ...words);
      expect(done).toMatchObject({ code: 0 });
      expect(done.asked).toHaveLength(4);
      expect(done.asked[0]).toContain('"01/06/2026" can be read in 2 ways');
      expect(done.asked[0]).toContain('1  day, month, year\n  2  month, day, year');
      expect(done.out).toContain('"+25:00" is no offset from UTC');
      expect(done.asked[3]).toBe('Log these 2 rows? [y/N] ');
      expect(done.out).toContain('run 1, 2026-06-01T12:00:00+05:45');
      const next = put('runs-2.csv', 'Date,Run,From (m),To (m)\n03/06/2026,3,1.95,2.93\n');
      expect((await bring(next, '--yes')).out).toContain('run 3, 2026-06-03T12:00:00+05:45');
      const refused = await withPerson(
        ['no'],
        'import',
        put('r3.csv', 'Date,Run,From (m),To (m)\n04/06/2026,4,2.93,3.9\n'),
        ...words.slice(2),
      );
      expect(refused).toMatchObject({ code: 2 });
      expect(refused.out).toContain('Nothing was written.');
    }));

  it('says what has to be said first where nobody is there to answer', () =>
    inFolder(async (folder) => {
      const { put, bring, entries } = await begin(folder);
      const file = put('runs.csv', 'Date,Run,To (m)\n01/06/2026,1,"1,234"\n');
      const refused = await bring(file, '--yes');
      expect(refused.code).toBe(2);
      expect(refused.out).toContain('Has to be said first');
      expect(refused.err).toContain('something has to be said first, see above; nothing was written');
      const said = ['--read', 'Date=month-first', '--read', 'To (m)=comma', '--offset', 'Z'];
      expect((await bring(file, ...said, '--dry-run')).out).toContain(
        'run 1, 2026-01-06T12:00:00Z: number 1, to 1,234 m',
      );
      expect(await entries()).toBe(5);
    }));

  it('takes columns as they are named by hand', () =>
    inFolder(async (folder) => {
      const { put, bring } = await begin(folder);
      const file = put('odd.csv', 'Tag;Nr;Oben;Unten;Was\n2026-06-12;1;0,00;0,98;x\n');
      const unknown = await bring(file, '--yes');
      expect(unknown.code).toBe(2);
      expect(unknown.err).toContain('no table in it was recognised');
      expect(unknown.err).toContain('Columns: Tag, Nr, Oben, Unten, Was');
      const mapped = [
        '--as',
        'run',
        '--map',
        'number=Nr',
        '--map',
        'from=3',
        '--map',
        'run.to=unten',
        '--map',
        'day=Tag',
      ];
      const more = ['--map', 'recovered==core', '--read', 'Oben=m', '--read', 'Unten=m', '--offset', 'Z'];
      const done = await bring(file, ...mapped, ...more, '--dry-run');
      expect(done.out).toContain(
        'run 1, 2026-06-12T12:00:00Z: number 1, from 0,00 m, to 0,98 m, recovered core',
      );
      expect(done.out).toContain('not used: Was');
      expect((await bring(file, '--sheet', 'Runs')).err).toContain('there is no table on a sheet "Runs"');
    }));

  it('corrects rows that changed where a reason is given, and leaves them otherwise', () =>
    inFolder(async (folder) => {
      const { data, put, bring } = await begin(folder);
      await bring(put('log.csv', log), '--offset', '+05:45', '--yes');
      const file = put('log.csv', log.replace('42,8', '42,9'));
      expect((await bring(file, '--yes')).out).toContain(
        'piece 2.2 (line 8): length is 42,8 cm in the book, 42,9 cm in the file',
      );
      expect((await bring(file, '--yes', '--correct', 'typed wrong')).out).toContain(
        'Logged: 1 rows of log.csv',
      );
      expect((await bring(file, '--yes')).out).toContain('nothing to log');
      expect((await firnbook('state', '--data', data)).out).toContain('2 runs, 3 pieces');
    }));

  it('names a file that is not there, is no table, or means harm, and goes on living', () =>
    inFolder(async (folder) => {
      const { put, bring } = await begin(folder);
      expect((await bring(join(folder, 'none.csv'))).err).toContain('there is no such file');
      const prose = await bring(put('prose.txt', 'Dear all, the core is fine.\n'));
      expect(prose).toMatchObject({ code: 2 });
      expect(prose.err).toContain('there is no table in it');
      const wide = await bring(put('wide.csv', `${','.repeat(1_000_000)}\n`));
      expect(wide.err).toContain('wide.csv: a line has more than 16384 cells');
    }));
});

describe('the limited worker', () => {
  const bytes = new TextEncoder().encode(`a,b\n${'1,2\n'.repeat(200_000)}`);

  it('gives what the reader gives', async () => {
    const { tables } = await readInWorker({ bytes: bytes.subarray(0, 4_004), name: 'a.csv' });
    expect(tables[0].rows).toHaveLength(1_000);
  });

  it('is stopped when it takes too long, and this process goes on', async () => {
    const start = performance.now();
    await expect(readInWorker({ bytes, name: 'a.csv' }, { milliseconds: 5, megabytes: 512 })).rejects.toThrow(
      'a.csv: reading it took more than 0.005 seconds',
    );
    expect(performance.now() - start).toBeLessThan(5_000);
  });

  it('is stopped when it takes too much memory, and this process goes on', async () => {
    await expect(
      readInWorker({ bytes, name: 'a.csv' }, { milliseconds: 60_000, megabytes: 16 }),
    ).rejects.toThrow('a.csv: reading it took more than 16 MB of memory');
  });
});
