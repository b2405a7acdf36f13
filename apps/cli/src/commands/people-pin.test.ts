import { openPins, startServer } from '@firnbook/server';
import { describe, expect, it } from 'vitest';
import { beginCampaign, firnbook, inFolder } from '../try.suite.ts';

interface Listed {
  readonly people: readonly { readonly initials: string; readonly pin?: boolean }[];
}

/** A campaign that asks for PINs, in which KM has one, as a tablet would have set it. */
async function withPin(data: string) {
  await beginCampaign(data);
  const where = ['--campaign', 'Ceredin Saddle', '--initials', 'KM', '--data', data];
  expect(await firnbook('people', 'pin', 'asked', ...where)).toMatchObject({ code: 0, err: '' });
  const { out } = await firnbook('state', '--json', '--data', data);
  const { campaigns } = JSON.parse(out) as { campaigns: readonly { readonly id: string }[] };
  const who = { campaign: campaigns[0]?.id ?? '', person: await personOf(data, 'KM') };
  expect(await openPins(data).set(who, '2718', null, 'tablet 1')).toMatchObject({ is: 'set' });
  return who;
}

/** Id of the person's first entry, as every screen has it. */
async function personOf(data: string, initials: string): Promise<string> {
  const { out } = await firnbook('show', initials, '--campaign', 'Ceredin Saddle', '--json', '--data', data);
  return (JSON.parse(out) as { id: string }).id;
}

const listed = async (data: string) =>
  (JSON.parse((await firnbook('people', '--json', '--data', data)).out) as Listed).people;
const reset = (data: string, initials: string) => firnbook('people', 'pin-reset', initials, '--data', data);

describe('firnbook people pin-reset', () => {
  it('takes a forgotten PIN away, where no server runs; once', () =>
    inFolder(async (data) => {
      await withPin(data);
      expect(await listed(data)).toMatchObject([{ initials: 'KM', pin: true }]);
      const done = await reset(data, 'km');
      expect(done).toMatchObject({ code: 0, err: '' });
      expect(done.out).toContain('chooses one where the initials are picked');
      expect(await listed(data)).toMatchObject([{ initials: 'KM', pin: false }]);
      const again = await reset(data, 'KM');
      expect([again.code, again.err]).toEqual([2, expect.stringContaining('KM has no PIN')]);
    }));

  it('goes through the server that runs, which knows it at once', () =>
    inFolder(async (data) => {
      const who = await withPin(data);
      const server = await startServer({ dataFolder: data, webFolder: data, port: 0, log: () => undefined });
      try {
        const check = () =>
          fetch(`${server.address}/api/campaigns/${who.campaign}/pins/${who.person}/check`, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({ pin: '2718' }),
          });
        expect((await check()).status).toBe(200);
        expect(await listed(data)).toMatchObject([{ initials: 'KM', pin: true }]);
        expect(await reset(data, 'KM')).toMatchObject({ code: 0, err: '' });
        expect((await check()).status).toBe(403);
        expect(await listed(data)).toMatchObject([{ initials: 'KM', pin: false }]);
        expect((await reset(data, 'KM')).code).toBe(2);
      } finally {
        await server.close();
      }
    }));

  it.each([
    ['XX', 'nobody in this campaign has the initials "XX"'],
    ['', 'nobody in this campaign'],
  ])('"%s" is nobody', (initials, words) =>
    inFolder(async (data) => {
      await beginCampaign(data);
      const { code, err } = await reset(data, initials);
      expect(code).toBe(2);
      expect(err).toContain(words);
    }),
  );
});
