import { createHash, randomBytes } from 'node:crypto';
import { existsSync, utimesSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { newCampaign, runLogged, sync, tablet } from './crew.suite.ts';
import { temporaryFolder } from './folders.suite.ts';
import { type Server, startServer } from './start.ts';

const mebibyte = 1024 * 1024;
const campaign = newCampaign();
const folder = temporaryFolder();
const options = {
  dataFolder: join(folder.path, 'data'),
  webFolder: folder.path,
  port: 0,
  log: () => undefined,
};
let server: Server;

beforeAll(async () => {
  server = await startServer(options);
  const device = await tablet(campaign);
  await device.write([runLogged(7)]);
  await sync(device, server.address);
});
afterAll(async () => {
  await server.close();
  folder.remove();
});

const picture = (length: number) => {
  const bytes = randomBytes(length);
  return { bytes, name: createHash('sha256').update(bytes).digest('hex') };
};
const placeOf = (name: string) => `/api/campaigns/${campaign}/attachments/${name}/pieces`;
const partialOf = (name: string) =>
  join(options.dataFolder, 'campaigns', campaign, 'attachments', `partial-${name}`);
const ask = async (path: string, init: RequestInit = {}) => {
  const answer = await fetch(server.address + path, init);
  return { status: answer.status, said: (await answer.json()) as Record<string, unknown> };
};
const put = (name: string, offset: number | string, size: number | string, body: Uint8Array) =>
  ask(`${placeOf(name)}/${offset}?size=${size}`, {
    method: 'PUT',
    headers: { 'content-type': 'application/octet-stream' },
    body: new Uint8Array(body),
  });

it('a file goes up and comes down in pieces, also over a restart of the server', async () => {
  const { bytes, name } = picture(2 * mebibyte + 33);
  expect((await ask(placeOf(name))).said).toEqual({ received: 0, isWhole: false });
  await put(name, 0, bytes.length, bytes.subarray(0, mebibyte));
  await server.close();
  server = await startServer(options);
  expect((await ask(placeOf(name))).said).toEqual({ received: mebibyte, isWhole: false });
  expect((await fetch(`${server.address}${placeOf(name)}/0`)).status).toBe(404);
  await put(name, mebibyte, bytes.length, bytes.subarray(mebibyte, 2 * mebibyte));
  const last = await put(name, 2 * mebibyte, bytes.length, bytes.subarray(2 * mebibyte));
  expect(last.said).toEqual({ received: bytes.length, isWhole: true });
  const parts: Uint8Array[] = [];
  for (let at = 0; at < bytes.length; at += parts.at(-1)!.length)
    parts.push(new Uint8Array(await (await fetch(`${server.address}${placeOf(name)}/${at}`)).arrayBuffer()));
  expect(parts).toHaveLength(3);
  expect(Buffer.concat(parts).equals(bytes)).toBe(true);
  const whole = await fetch(`${server.address}/api/campaigns/${campaign}/attachments/${name}`);
  expect(Buffer.from(await whole.arrayBuffer()).equals(bytes)).toBe(true);
});

it('a connection that breaks in the middle of a piece leaves nothing of that piece', async () => {
  const { bytes, name } = picture(mebibyte + 4000);
  await put(name, 0, bytes.length, bytes.subarray(0, mebibyte));
  const { port } = new URL(server.address);
  const socket = connect(Number(port), '127.0.0.1');
  socket.write(
    [
      `PUT ${placeOf(name)}/${mebibyte}?size=${bytes.length} HTTP/1.1`,
      `Host: 127.0.0.1:${port}`,
      'Content-Type: application/octet-stream',
      'Content-Length: 4000',
      '',
      '',
    ].join('\r\n'),
  );
  socket.write(bytes.subarray(mebibyte, mebibyte + 1500));
  await new Promise((resolve) => setTimeout(resolve, 100));
  socket.destroy();
  await new Promise((resolve) => setTimeout(resolve, 100));
  expect((await ask(placeOf(name))).said).toEqual({ received: mebibyte, isWhole: false });
  expect((await put(name, mebibyte, bytes.length, bytes.subarray(mebibyte))).said).toMatchObject({
    isWhole: true,
  });
});

it('a piece that is out of place is answered with how far the file is', async () => {
  const { bytes, name } = picture(3000);
  await put(name, 0, 3000, bytes.subarray(0, 1000));
  for (const offset of [0, 999, 1001])
    expect(await put(name, offset, 3000, bytes.subarray(1000))).toMatchObject({
      status: 200,
      said: { received: 1000, isWhole: false },
    });
});

it('an empty file is a file', async () => {
  const { bytes, name } = picture(0);
  expect((await put(name, 0, 0, bytes)).said).toEqual({ received: 0, isWhole: true });
});

it('hostile pieces are refused with words', async () => {
  const { bytes, name } = picture(mebibyte + 1);
  expect((await put(name, 0, bytes.length, bytes)).status).toBe(413);
  expect((await put(name, 0, 513 * mebibyte, bytes.subarray(0, 9))).status).toBe(413);
  for (const size of ['', '-1', '1e9', 'NaN', '9'.repeat(400)])
    expect((await put(name, 0, size, bytes.subarray(0, 9))).status).toBe(400);
  expect((await put(name, '-1', 9, bytes.subarray(0, 9))).status).toBe(400);
  expect((await put('x'.repeat(64), 0, 9, bytes.subarray(0, 9))).status).toBe(400);
  expect((await put('..%2F..%2Fetc', 0, 9, bytes.subarray(0, 9))).status).toBe(400);
  const wrong = await put(name, 0, 9, bytes.subarray(0, 9));
  expect(wrong).toMatchObject({ status: 400, said: { what: expect.stringContaining('SHA-256') } });
  expect((await ask(placeOf(name).replace(campaign, 'elsewhere'))).status).toBe(404);
  expect((await ask(placeOf(name), { method: 'DELETE' })).status).toBe(404);
  const json = { method: 'PUT', headers: { 'content-type': 'application/json' }, body: '{}' };
  expect((await ask(`${placeOf(name)}/0?size=2`, json)).status).toBe(415);
});

it('what nobody finished for seven days is forgotten', async () => {
  const [old, young] = [picture(3000), picture(4000)];
  for (const { name, bytes } of [old, young]) await put(name, 0, bytes.length, bytes.subarray(0, 1000));
  const days = (count: number) => new Date(Date.now() - count * 86_400_000);
  utimesSync(partialOf(old.name), days(7.1), days(7.1));
  utimesSync(partialOf(young.name), days(6.9), days(6.9));
  await server.close();
  server = await startServer(options);
  expect([old, young].map(({ name }) => existsSync(partialOf(name)))).toEqual([false, true]);
});
