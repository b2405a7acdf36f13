import { possessionText } from '@firnbook/journal';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newCampaign, runLogged, sync, tablet } from '../crew.suite.ts';
import { ask, type Camp, type KeyPair, newKey, openCamp } from './camp.suite.ts';
import type { DeviceRecord } from './devices.ts';

/** The key that a device signs its entries with, shown to the camp computer; and what follows for its entries. */

let camp: Camp;
beforeAll(async () => {
  camp = await openCamp();
}, 60_000);
afterAll(() => camp.close());

const send = (path: string, body: unknown, cookie?: string) =>
  ask(`${camp.network}${path}`, {
    method: 'POST',
    ca: camp.authority,
    headers: { 'content-type': 'application/json', ...(cookie !== undefined && { cookie }) },
    body: JSON.stringify(body),
  });
const list = async () =>
  (await (await fetch(`${camp.server.address}/api/devices`)).json()) as readonly DeviceRecord[];
const named = async (name: string) => (await list()).find((one) => one.name === name);
const revoke = (id: string) => fetch(`${camp.server.address}/api/devices/${id}/revoke`, { method: 'POST' });
const own = async (cookie: string) =>
  JSON.parse((await ask(`${camp.network}/api/device`, { ca: camp.authority, headers: { cookie } })).text) as {
    readonly publicKey: string | null;
    readonly challenge: string;
  };
const tell = async (cookie: string, key: KeyPair, challenge?: string) =>
  send(
    '/api/device/key',
    {
      publicKey: key.publicKey,
      proof: key.sign(possessionText(challenge ?? (await own(cookie)).challenge)),
    },
    cookie,
  );

describe('a device shows its key', () => {
  it('control: with the pairing; the list has it, and the device hears it back', async () => {
    const key = newKey();
    const cookie = await camp.pair('tablet 1', key);
    expect((await named('tablet 1'))?.publicKey).toBe(key.publicKey);
    expect((await own(cookie)).publicKey).toBe(key.publicKey);
  });

  it('a key of somebody else is refused, and the code stays good', async () => {
    const [key, foreign] = [newKey(), newKey()];
    const { token } = await camp.offer();
    const body = (publicKey: string, proof: string) => ({
      secret: token,
      name: 'tablet 2',
      publicKey,
      proof,
    });
    const wrong = [
      // signed by another key; over another secret; the foreign key's own signature from another pairing
      body(foreign.publicKey, key.sign(possessionText(token))),
      body(key.publicKey, key.sign(possessionText(`${token}x`))),
      body(foreign.publicKey, foreign.sign(possessionText('another token'))),
    ];
    for (const one of wrong) expect((await send('/api/pairing', one)).status).toBe(403);
    expect(await named('tablet 2')).toBeUndefined();
    const right = body(key.publicKey, key.sign(possessionText(token)));
    expect((await send('/api/pairing', right)).status).toBe(201);
  });

  it.each([
    ['a key without a proof', { publicKey: newKey().publicKey }],
    ['a proof without a key', { proof: newKey().sign('x') }],
    ['a short key', { publicKey: 'abc', proof: newKey().sign('x') }],
    ['a key with spare bits', { publicKey: `${'A'.repeat(42)}B`, proof: newKey().sign('x') }],
    ['a number', { publicKey: 7, proof: 7 }],
  ])('%s is refused with 400', async (_what, more) => {
    const { token } = await camp.offer();
    expect((await send('/api/pairing', { secret: token, name: 'tablet', ...more })).status).toBe(400);
    const cookie = await camp.pair('tablet');
    expect((await send('/api/device/key', more, cookie)).status).toBe(400);
  });

  it('one that was paired without says it later, once; another key after that is shown and not taken', async () => {
    const cookie = await camp.pair('tablet 3');
    expect((await named('tablet 3'))?.publicKey).toBeNull();
    const [key, other] = [newKey(), newKey()];
    // the proof of somebody else's question is of no use
    const stranger = await own(await camp.pair('stranger'));
    expect((await tell(cookie, key, stranger.challenge)).status).toBe(403);
    expect((await tell(cookie, key)).status).toBe(200);
    expect((await tell(cookie, key)).status).toBe(200);
    expect(await named('tablet 3')).toMatchObject({ publicKey: key.publicKey, otherKey: null });
    const refused = await tell(cookie, other);
    expect([refused.status, JSON.parse(refused.text).what]).toEqual([
      409,
      'The camp computer knows this device under another key',
    ]);
    expect(await named('tablet 3')).toMatchObject({
      publicKey: key.publicKey,
      otherKey: { key: other.publicKey, at: expect.any(String) },
    });
  });

  it('without a credential, or with one that was revoked, no key is taken', async () => {
    const key = newKey();
    expect((await tell('', key, 'x')).status).toBe(401);
    const cookie = await camp.pair('tablet 4');
    const { challenge } = await own(cookie);
    await revoke((await named('tablet 4'))?.id ?? '');
    expect((await tell(cookie, key, challenge)).status).toBe(401);
  });

  it('paired again under its key it keeps its line, and the credential of before opens nothing', async () => {
    const key = newKey();
    const before = await camp.pair('tablet 5', key);
    const first = await named('tablet 5');
    const after = await camp.pair('tablet 5', key);
    expect((await list()).filter(({ publicKey }) => publicKey === key.publicKey)).toMatchObject([
      { id: first?.id, name: 'tablet 5' },
    ]);
    const status = async (cookie: string) =>
      (await ask(`${camp.network}/api/campaigns`, { ca: camp.authority, headers: { cookie } })).status;
    expect([await status(before), await status(after)]).toEqual([401, 200]);
  });
});

describe('what a revoked device wrote', () => {
  const wrote = async () =>
    (await (await fetch(`${camp.server.address}/api/devices/entries`)).json()) as readonly {
      readonly device: string;
      readonly campaign: string;
      readonly entries: number;
      readonly came: number;
      readonly made: number;
    }[];

  it('stays, is counted for it, and what comes after is taken and counted apart', async () => {
    const key = newKey();
    const campaign = newCampaign();
    await camp.pair('tablet 6', key);
    const device = await named('tablet 6');
    const signer = { key: key.publicKey, sign: key.sign };
    // its clock is an hour slow
    let off = -3_600_000;
    const lost = await tablet(campaign, { signer, now: () => Date.now() + off });
    await lost.write([runLogged(1), runLogged(2), runLogged(3)]);
    await sync(lost, camp.server.address);
    const line = async () => (await wrote()).filter((one) => one.campaign === campaign);
    expect(await line()).toMatchObject([{ device: device?.id, entries: 3, came: 0, made: 0 }]);

    await revoke(device?.id ?? '');
    expect((await named('tablet 6'))?.held?.[campaign]).toEqual({
      [lost.device]: [{ sequence: 3, hash: lost.ledger.tip(lost.device)?.hash }],
    });
    await lost.write([runLogged(4)]);
    off = 3_600_000;
    await lost.write([runLogged(5)]);
    // another carrier brings them: the camp computer's own browser, a file, a colleague's tablet
    await sync(lost, camp.server.address);
    expect(await line()).toMatchObject([{ device: device?.id, entries: 5, came: 2, made: 1 }]);

    // control: a device that is let in has nothing to be marked
    const another = newKey();
    await camp.pair('tablet 7', another);
    const fine = await tablet(campaign, { signer: { key: another.publicKey, sign: another.sign } });
    await fine.write([runLogged(6)]);
    await sync(fine, camp.server.address);
    expect((await line()).at(-1)).toMatchObject({ entries: 1, came: 0, made: 0 });
  });
});

describe('who speaks for a device', () => {
  const report = (device: string, unsent: number) => ({
    device,
    name: 'Tablet 3F2A',
    entries: 9,
    unsent,
    clockOff: null,
    persistence: null,
    copies: 1,
    room: 'whole',
    ballast: 0,
    battery: null,
  });
  const speak = async (campaign: string, device: string, unsent: number, cookie: string) =>
    (await send(`/api/campaigns/${campaign}/presence`, report(device, unsent), cookie)).status;
  const heard = async (campaign: string, device: string) => {
    const answer = await fetch(`${camp.server.address}/api/campaigns/${campaign}/presence`);
    const all = (await answer.json()) as { device: string; unsent: number }[];
    return all.find((one) => one.device === device)?.unsent;
  };

  /** A campaign that a device began, signed where it has a key. */
  async function begun(key?: KeyPair) {
    const campaign = newCampaign();
    const signer = key === undefined ? {} : { signer: { key: key.publicKey, sign: key.sign } };
    const replica = await tablet(campaign, signer);
    await replica.write([runLogged(1)]);
    await sync(replica, camp.server.address);
    return { campaign, device: replica.device };
  }

  it('who came first; another pairing is refused with words, and what was said stays', async () => {
    const { campaign, device } = await begun();
    const [mine, theirs] = [await camp.pair('mine'), await camp.pair('theirs')];
    expect(await speak(campaign, device, 4, mine)).toBe(200);
    const refused = await send(`/api/campaigns/${campaign}/presence`, report(device, 0), theirs);
    expect([refused.status, JSON.parse(refused.text).what]).toEqual([
      403,
      'Another device speaks under this name',
    ]);
    expect(await heard(campaign, device)).toBe(4);
    // the camp computer's own browser is not that tablet either
    const here = await fetch(`${camp.server.address}/api/campaigns/${campaign}/presence`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(report(device, 0)),
    });
    expect(here.status).toBe(403);
    // control: under its own name the other one is heard, and the first goes on
    expect(await speak(campaign, 'of-theirs', 7, theirs)).toBe(200);
    expect(await speak(campaign, device, 5, mine)).toBe(200);
    expect(await heard(campaign, device)).toBe(5);
  });

  it('the new pairing of a tablet whose first one was revoked', async () => {
    const { campaign, device } = await begun();
    const before = await camp.pair('lost and found');
    expect(await speak(campaign, device, 4, before)).toBe(200);
    const after = await camp.pair('found');
    expect(await speak(campaign, device, 3, after)).toBe(403);
    await revoke((await named('lost and found'))?.id ?? '');
    expect(await speak(campaign, device, 3, after)).toBe(200);
    expect(await heard(campaign, device)).toBe(3);
  });

  it('whoever holds the key that the chain states, also where a stranger came first', async () => {
    const [key, foreign] = [newKey(), newKey()];
    const { campaign, device } = await begun(key);
    const stranger = await camp.pair('stranger with a key', foreign);
    expect(await speak(campaign, device, 0, stranger)).toBe(403);
    const keyless = await camp.pair('stranger without a key');
    expect(await speak(campaign, device, 0, keyless)).toBe(200);
    const holder = await camp.pair('holder', key);
    expect(await speak(campaign, device, 6, holder)).toBe(200);
    expect(await speak(campaign, device, 0, keyless)).toBe(403);
    expect(await heard(campaign, device)).toBe(6);
    // paired again: the same key, another credential
    expect(await speak(campaign, device, 2, await camp.pair('holder', key))).toBe(200);
  });

  it('is remembered over a restart of the server', async () => {
    const again = await openCamp();
    const campaign = newCampaign();
    const replica = await tablet(campaign);
    await replica.write([runLogged(1)]);
    await sync(replica, again.server.address);
    const [mine, theirs] = [await again.pair('mine'), await again.pair('theirs')];
    const say = (at: Camp, cookie: string) =>
      ask(`${at.network}/api/campaigns/${campaign}/presence`, {
        method: 'POST',
        ca: at.authority,
        headers: { 'content-type': 'application/json', cookie },
        body: JSON.stringify(report(replica.device, 1)),
      });
    expect((await say(again, mine)).status).toBe(200);
    const restarted = await again.restart();
    expect((await say(restarted, theirs)).status).toBe(403);
    expect((await say(restarted, mine)).status).toBe(200);
    await restarted.close();
  });
});
