import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openDevices } from '@firnbook/server';
import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

const campaignOf = (out: string): string => /^([0-9a-f-]{36}):/m.exec(out)?.[1] ?? '';

describe('firnbook stick', () => {
  it('names a stick once, tests it, and lists it', () =>
    inFolder(async (folder) => {
      const stick = join(folder, 'stick');
      const data = join(folder, 'data');
      mkdirSync(stick);
      await beginCampaign(data);
      expect((await firnbook('stick', '--data', data)).out).toContain('No stick has a name yet');
      expect((await firnbook('stick', stick, '--data', data)).err).toContain('the stick has no name yet');
      const named = await firnbook('stick', stick, '--name', 'red', '--test', '2', '--data', data);
      expect(named.out).toMatch(/Stick red is known to this book. 2 MB were written and came back/);
      expect(named.out).toContain('Whoever finds it could pose as');
      expect((await firnbook('stick', '--data', data)).out).toContain('red (');
      mkdirSync(join(stick, 'camp_network'));
      const bare = await firnbook('stick', stick, '--test', 'none', '--without-network', '--data', data);
      expect(bare.out).toContain('that lay on it were deleted');
      expect(existsSync(join(stick, 'camp_network'))).toBe(false);
      expect((await firnbook('stick', '--data', data)).out).toContain('without the camp network');
      expect((await firnbook('stick', stick, '--name', 'blue', '--data', data)).err).toContain(
        'called "red" already',
      );
      expect((await firnbook('stick', stick, '--test', 'some', '--data', data)).err).toContain(
        '"some" is no size',
      );
    }));
});

describe('firnbook recover', () => {
  it('brings the book back on a blank computer, from the newest generation that is whole', () =>
    inFolder(async (folder) => {
      const [data, stick, blank] = ['data', 'stick', 'blank'].map((name) => join(folder, name)) as [
        string,
        string,
        string,
      ];
      await beginCampaign(data);
      await firnbook('backup', stick, '--data', data);
      await firnbook('log', 'weather', 'temperature=-14 °C', '--initials', 'KM', '--data', data);
      await firnbook('backup', stick, '--data', data);
      const campaign = campaignOf((await firnbook('verify', '--data', data)).out);

      const rehearsed = await firnbook('recover', stick, '--rehearse', '--data', blank);
      expect(rehearsed.out).toMatch(/every one checked\nRehearsed in \d+\.\d s/);
      const back = await firnbook('recover', stick, '--data', blank);
      expect(back.code).toBe(0);
      const digest = /digest ([0-9a-f]{64})/;
      expect(digest.exec(back.out)![1]).toBe(digest.exec((await firnbook('verify', '--data', data)).out)![1]);

      const again = await firnbook('recover', stick, '--data', blank);
      expect(again.err).toContain('is in this data folder already');
      expect((await firnbook('recover', stick, '--set-aside', '--data', blank)).out).toContain(
        'What was there is kept in',
      );

      const newest = join(stick, campaign, 'generation-0002', 'journal.sqlite');
      const bytes = readFileSync(newest);
      bytes[5000]! ^= 1;
      writeFileSync(newest, bytes);
      const older = await firnbook('recover', stick, '--data', join(folder, 'older'));
      expect(older.err).toMatch(/generation-0002 is passed over: The journal of this backup was changed/);
      expect(older.code).toBe(0);
      expect(
        (await firnbook('recover', stick, '--generation', '2', '--data', join(folder, 'x'))).err,
      ).toContain('no generation on it is whole');
    }));

  it('brings the camp network onto a computer that has none, and overwrites none', () =>
    inFolder(async (folder) => {
      const [data, stick, bare] = ['data', 'stick', 'bare'].map((name) => join(folder, name)) as [
        string,
        string,
        string,
      ];
      await beginCampaign(data);
      const { credential } = openDevices(data).add('tablet 3');
      const backedUp = await firnbook('backup', stick, '--data', data);
      expect(backedUp.out).toMatch(/The camp network, read back, generation 1/);
      expect((await firnbook('backup', stick, '--data', data)).out).toContain('lies there as it is');
      await firnbook('backup', bare, '--data', data, '--without-network');
      const recovered = (from: string, to: string, ...more: readonly string[]) =>
        firnbook('recover', from, '--data', join(folder, to), ...more);

      const back = await recovered(stick, 'new');
      expect(back.out).toMatch(/The camp network: 1 device, as of 20/);
      expect(openDevices(join(folder, 'new')).find(credential)?.name).toBe('tablet 3');
      // controls: without it on the stick, or without wanting it, the credential is nobody's
      expect((await recovered(bare, 'bare-new')).code).toBe(0);
      expect((await recovered(stick, 'left', '--without-network')).code).toBe(0);
      for (const to of ['bare-new', 'left'])
        expect(openDevices(join(folder, to)).find(credential)).toBeNull();

      const other = join(folder, 'other');
      openDevices(other).add('tablet of another camp');
      expect((await recovered(stick, 'other')).out).toContain('of this computer stays as it is');
      expect(openDevices(other).list()).toMatchObject([{ name: 'tablet of another camp' }]);

      const copy = join(stick, 'camp_network', 'generation-0001', 'devices.json');
      writeFileSync(copy, readFileSync(copy, 'utf8').replace('tablet 3', 'tablet 4'));
      const harmed = await recovered(stick, 'harmed');
      expect([harmed.code, harmed.err]).toEqual([2, expect.stringContaining('devices.json is not what was')]);
      // the campaigns are back all the same
      expect(harmed.out).toContain('every one checked');
    }));

  it('says what it can not do', () =>
    inFolder(async (folder) => {
      expect((await firnbook('recover', folder)).err).toContain('there is no backup here');
    }));
});
