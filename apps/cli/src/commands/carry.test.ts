import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { startServer } from '@firnbook/server';
import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

const digestIn = (out: string): string => /digest ([0-9a-f]{64})/.exec(out)?.[1] ?? out;
const digestOf = async (data: string) => digestIn((await firnbook('verify', '--data', data)).out);
const weather = (data: string, temperature: string) =>
  firnbook(
    'log',
    'weather',
    `temperature=${temperature}`,
    '--campaign',
    'Ceredin Saddle',
    '--initials',
    'KM',
    '--data',
    data,
  );

/** Two computers of one camp and a stick. */
const twoAndStick = (work: (one: string, other: string, stick: string) => Promise<void>) =>
  inFolder(async (folder) => {
    const stick = join(folder, 'stick');
    mkdirSync(stick);
    await beginCampaign(join(folder, 'one'));
    await work(join(folder, 'one'), join(folder, 'other'), stick);
  });

describe('firnbook carry and firnbook bring', () => {
  it('two computers that meet by stick alone hold the same after two files', () =>
    twoAndStick(async (one, other, stick) => {
      const first = join(stick, 'first.jsonl');
      const carried = await firnbook('carry', first, '--data', one);
      expect(carried.out).toMatch(/first\.jsonl: \d+ entries and 0 attachments, read back\n$/);
      const brought = await firnbook('bring', first, '--data', other);
      expect(brought.code).toBe(0);
      expect(brought.out).toMatch(
        /^Ceredin Saddle, from camp computer \(.+\), written 20.+\nThis campaign is not here yet\.\n\d+ entries new, 0 here already/,
      );
      expect(await digestOf(other)).toBe(await digestOf(one));

      await weather(one, '-14 °C');
      expect((await weather(other, '-15 °C')).code).toBe(0);
      const answer = join(stick, 'answer.jsonl');
      const forOne = await firnbook('carry', answer, '--for', first, '--data', other);
      expect(forOne.out).toContain('1 entry and 0 attachments that camp computer');
      expect((await firnbook('bring', answer, '--data', one)).out).toMatch(
        /1 entry new, 0 here already(.|\n)*lacks 1 entry that is here\. To write them: firnbook carry OUT/,
      );
      const name = /"(camp computer \(.+\))"/.exec((await firnbook('bring', answer, '--data', one)).out)![1]!;
      const back = join(stick, 'back.jsonl');
      expect((await firnbook('carry', back, '--for', name, '--data', one)).out).toContain('1 entry and');
      await firnbook('bring', back, '--data', other);
      expect(await digestOf(other)).toBe(await digestOf(one));
    }));

  it('photographs and tables come along, also where a server runs at both ends', () =>
    twoAndStick(async (one, other, stick) => {
      const picture = Buffer.from('not really a picture, but bytes: äöü\u0000'.repeat(60_000));
      writeFileSync(join(stick, 'core.jpg'), picture);
      const sha256 = createHash('sha256').update(picture).digest('hex');
      const options = { webFolder: stick, port: 0, log: () => undefined };
      const servers = [
        await startServer({ ...options, dataFolder: one }),
        await startServer({ ...options, dataFolder: other }),
      ];
      try {
        const logged = await firnbook(
          ...['log', 'photograph', 'of=Zero 1', `picture=${sha256}`, '--campaign', 'Ceredin Saddle'],
          ...['--initials', 'KM', '--data', one],
        );
        expect(logged).toMatchObject({ code: 0 });
        const [{ id }] = (await (await fetch(`${servers[0]!.address}/api/campaigns`)).json()) as [
          { id: string },
        ];
        const place = `/api/campaigns/${id}/attachments/${sha256}`;
        await fetch(servers[0]!.address + place, {
          method: 'PUT',
          headers: { 'content-type': 'application/octet-stream' },
          body: new Uint8Array(picture),
        });
        expect((await firnbook('carry', stick, '--data', one)).out).toContain('1 attachment');
        const name = readdirSync(stick).find((file) => file.endsWith('.jsonl'))!;
        expect(name).toMatch(/^Ceredin Saddle from camp computer \(.+\) \d{4}-\d\d-\d\d \d{4} UTC\.jsonl$/);
        const brought = await firnbook('bring', join(stick, name), '--data', other);
        expect(brought.out).toMatch(/Brought in: \d+ entries, 1 attachment/);
        const there = Buffer.from(await (await fetch(servers[1]!.address + place)).arrayBuffer());
        expect(there.equals(picture)).toBe(true);
      } finally {
        for (const server of servers) await server.close();
      }
    }));

  it('a torn file gives what is whole, says from where it is torn, and ends with 1; again, whole, it completes', () =>
    twoAndStick(async (one, other, stick) => {
      const file = join(stick, 'copy.jsonl');
      await firnbook('carry', file, '--data', one);
      const whole = readFileSync(file);
      const lines = whole.toString().split('\n').length - 1;
      const torn = join(stick, 'torn.jsonl');
      writeFileSync(torn, whole.subarray(0, whole.length - 400));
      const brought = await firnbook('bring', torn, '--data', other);
      expect(brought.code).toBe(1);
      expect(brought.out).toContain(`The file is torn: it ends with line ${lines - 1}`);
      expect(brought.out).toContain('1 line is refused');
      expect(await digestOf(other)).not.toBe(await digestOf(one));
      expect((await firnbook('carry', join(stick, 'x.jsonl'), '--for', torn, '--data', one)).err).toContain(
        'leave out --for',
      );
      expect((await firnbook('bring', file, '--data', other)).code).toBe(0);
      expect(await digestOf(other)).toBe(await digestOf(one));
      expect((await firnbook('bring', file, '--data', other)).out).toContain('0 entries new');
    }));

  it('--dry-run says what would come and makes nothing', () =>
    twoAndStick(async (one, other, stick) => {
      const file = join(stick, 'copy.jsonl');
      await firnbook('carry', file, '--data', one);
      const looked = await firnbook('bring', file, '--dry-run', '--data', other);
      expect(looked.out).toMatch(/\d+ entries new, 0 here already.+\nNothing was written\.\n$/);
      expect(existsSync(other)).toBe(false);
      const before = await digestOf(one);
      expect((await firnbook('bring', file, '--dry-run', '--data', one)).out).toContain('0 entries new');
      expect(await digestOf(one)).toBe(before);
    }));

  it('says what it can not do', () =>
    twoAndStick(async (one, other, stick) => {
      const table = join(stick, 'runs.csv');
      writeFileSync(table, 'run;from;to\n1;0;0.92\n');
      expect((await firnbook('bring', table, '--data', other)).err).toContain('no file that firnbook wrote');
      expect((await firnbook('bring', join(stick, 'gone'), '--data', other)).err).toContain('no such file');
      expect((await firnbook('carry', table, '--data', one)).err).toContain('a file is there already');
      expect((await firnbook('carry', stick, '--for', 'Tablet 9', '--data', one)).err).toContain(
        'Leave out --for',
      );
      expect((await firnbook('carry', stick, '--for', table, '--data', one)).err).toContain(
        'no file that firnbook',
      );
      await firnbook(
        'new',
        'Ceredin Ridge',
        '--hole',
        'A',
        '--zero',
        'snow surface',
        '--initials',
        'KM',
        '--data',
        one,
      );
      expect((await firnbook('carry', stick, '--data', one)).err).toContain('there are 2 campaigns');
      const ridge = join(stick, 'ridge.jsonl');
      await firnbook('carry', ridge, '--campaign', 'Ceredin Ridge', '--data', one);
      expect(
        (await firnbook('carry', stick, '--campaign', 'Ceredin Saddle', '--for', ridge, '--data', one)).err,
      ).toContain('the file is of campaign Ceredin Ridge');
    }));
});
