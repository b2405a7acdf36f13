import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer as createSecure } from 'node:https';
import { createServer } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type CampComputer, startCamp } from './camp.ts';
import { drillRun, openCampaign } from './first-steps.ts';
import { makeScratch, type Scratch } from './folders.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { violationsOn } from './violations.ts';

const certutil = '/usr/bin/certutil';
const zbarimg = '/usr/bin/zbarimg';
const name = 'ceredin.internal';
/** Stands for the router's DNS. */
const args = [`--host-resolver-rules=MAP ${name} 127.0.0.1`];
const loop =
  Object.entries(networkInterfaces()).find(([, all]) => all?.some(({ internal }) => internal))?.[0] ?? 'lo';

let scratch: Scratch;
let camp: CampComputer;
/** The camp computer's own browser. */
let screen: Tablet;
let port: number;

const dataFolder = () => join(scratch.path, 'data');
const home = (who: string) => join(scratch.path, who);
const profile = (who: string) => join(home(who), 'profile');
/** Tablets of one test; one that fails leaves them on. */
const opened: Tablet[] = [];
const open = async (who: string): Promise<Tablet> => {
  const tablet = await openTablet(profile(who), undefined, { args, home: home(who) });
  opened.push(tablet);
  return tablet;
};
const origin = () => `https://${name}:${port}`;

beforeAll(async () => {
  scratch = makeScratch('network');
  port = await freePort();
  const settings = { interface: loop, name, isNameKnown: true, port, installPort: await freePort() };
  mkdirSync(join(dataFolder(), 'network'), { recursive: true });
  writeFileSync(join(dataFolder(), 'network', 'network.json'), JSON.stringify(settings));
  camp = await startCamp(dataFolder());
  mkdirSync(home('camp'));
  screen = await openTablet(profile('camp'), undefined, { home: home('camp') });
});
afterEach(async () => {
  for (const tablet of opened.splice(0)) await tablet.kill();
});
afterAll(async () => {
  await screen?.close();
  await camp?.kill();
  scratch.remove();
});

/** What a person does once on each tablet: the certificate from the plain page goes among the trusted ones. */
async function installCertificate(who: string, installAddress: string): Promise<void> {
  const store = join(home(who), '.pki/nssdb');
  mkdirSync(store, { recursive: true });
  const file = join(home(who), 'firnbook-camp.crt');
  const answer = await fetch(`${installAddress}/firnbook-camp.crt`);
  writeFileSync(file, Buffer.from(await answer.arrayBuffer()));
  execFileSync(certutil, ['-d', `sql:${store}`, '-N', '--empty-password']);
  execFileSync(certutil, ['-d', `sql:${store}`, '-A', '-t', 'C,,', '-n', 'camp', '-i', file]);
}

const decoded = (picture: string): string =>
  execFileSync(zbarimg, ['-q', '--raw', picture], {
    encoding: 'utf8',
    // It complains of a message bus that it doesn't need.
    stdio: ['ignore', 'pipe', 'ignore'],
  }).trim();

/** The codes on the camp computer's screen, as another program reads them off a picture of it. */
async function showCodes(): Promise<{ install: string; pair: string; code: string }> {
  const { page } = screen;
  await page.goto(`${camp.address}/devices`);
  await page.getByRole('button', { name: 'Pair a device', exact: true }).click();
  await page.locator('.qr').nth(1).waitFor();
  const read: string[] = [];
  for (const index of [0, 1]) {
    const picture = join(scratch.path, `qr-${index}.png`);
    await page.locator('.qr').nth(index).screenshot({ path: picture });
    read.push(decoded(picture));
  }
  const code = (await page.locator('.code').textContent()) ?? '';
  return { install: read[0] ?? '', pair: read[1] ?? '', code };
}

const pairs = (page: Page) => page.getByRole('button', { name: 'Pair this device' });

/** From the scanned address to "Paired". */
async function pair(page: Page, address: string, as: string): Promise<void> {
  await page.goto(address);
  await page.getByLabel('Name of this device').fill(as);
  await pairs(page).click();
  await page.getByText(`lists this device as ${as}`).waitFor();
  await page.getByText('These screens are kept on this device').waitFor({ timeout: 60_000 });
}

const isAtCamp = (page: Page) =>
  page.locator('.ticks').getByText('on the camp computer').waitFor({ timeout: 20_000 });
const isOnlyHere = (page: Page) => page.locator('.ticks').getByText('not there yet').waitFor();

describe.skipIf(!existsSync(certutil) || !existsSync(zbarimg))('The camp network', () => {
  /** What Chromium takes for "proceed anyway"; its warning takes keys only once it is drawn. */
  async function goOnAnyway(page: Page): Promise<void> {
    const found = page.getByText('has not taken the camp’s certificate');
    for (let tries = 1; ; tries += 1) {
      await page.keyboard.type('thisisunsafe', { delay: 20 });
      const isThere = await found.waitFor({ timeout: 5_000 }).then(
        () => true,
        () => false,
      );
      if (isThere) return;
      if (tries === 4) throw new Error('Chromium did not go on past its warning.');
    }
  }

  it('control: without the certificate a tablet stops at a warning; past it, nothing is paired and no code is used', async () => {
    const { pair: address, code } = await showCodes();
    mkdirSync(home('stranger'));
    const tablet = await open('stranger');
    try {
      const { page } = tablet;
      await expect(page.goto(address)).rejects.toThrow('ERR_CERT_AUTHORITY_INVALID');
      await goOnAnyway(page);
      expect(await pairs(page).count()).toBe(0);
      expect(await page.evaluate(() => isSecureContext)).toBe(true);
    } finally {
      await tablet.close();
    }
    expect(code).toMatch(/^[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{2}$/);
    const list = await (await fetch(`${camp.address}/api/devices`)).json();
    expect(list).toEqual([]);
  });

  it('A7, B5: scanned codes bring a tablet in; it starts without the camp computer, and its entries arrive', async () => {
    const { install, pair: address } = await showCodes();
    expect(install).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
    expect(address.startsWith(`${origin()}/pair#token=`)).toBe(true);
    mkdirSync(home('tablet'));
    await installCertificate('tablet', install);
    let tablet = await open('tablet');
    await pair(tablet.page, address, 'tablet 1');
    expect(new URL(tablet.page.url()).hash).toBe('');
    await screen.page.getByText('tablet 1 is paired.').waitFor();

    // The same code again, on another tablet.
    await tablet.page.goto('about:blank');
    await tablet.context.clearCookies();
    await tablet.page.goto(address);
    await pairs(tablet.page).click();
    await tablet.page.getByText('This code is not good').waitFor();
    // Then the typed one, in small letters.
    const { code } = await showCodes();
    await tablet.page.getByLabel('Code on the camp computer').fill(code.toLowerCase());
    await tablet.page.getByLabel('Name of this device').fill('tablet 2');
    await pairs(tablet.page).click();
    await tablet.page.getByText('lists this device as tablet 2').waitFor();

    await openCampaign(tablet.page, origin(), 'Ceredin Saddle');
    await isAtCamp(tablet.page);
    const campaign = /\/c\/([^/]+)/.exec(tablet.page.url())![1]!;
    await tablet.close();
    await camp.kill();

    tablet = await open('tablet');
    await tablet.page.goto(`${origin()}/c/${campaign}`);
    await drillRun(tablet.page, { from: '12.30', to: '13.22' });
    await isOnlyHere(tablet.page);
    await tablet.page.reload();
    await isOnlyHere(tablet.page);
    await camp.restart();
    const { entries } = await camp.digest(campaign);
    await isAtCamp(tablet.page);
    expect((await camp.digest(campaign)).entries).toBe(entries + 1);

    // What a browser says of the cookie: no script sees it.
    expect(await tablet.page.evaluate(() => document.cookie)).toBe('');
    await tablet.close();
  });

  it('rule 12: an expired certificate stops sync and nothing else', async () => {
    let tablet = await open('tablet');
    const { page } = tablet;
    await page.goto(origin());
    await page.getByRole('link', { name: /Ceredin Saddle/ }).click();
    await isAtCamp(page);
    const campaign = /\/c\/([^/]+)/.exec(page.url())![1]!;
    const { entries } = await camp.digest(campaign);
    await tablet.close();
    await camp.kill();
    const old = await oldServer();
    tablet = await open('tablet');
    await tablet.page.goto(`${origin()}/c/${campaign}`);
    await drillRun(tablet.page, { to: '14.05' });
    await isOnlyHere(tablet.page);
    // Control: the certificate is the reason; a page that is not kept on the tablet meets the warning.
    const bare = await tablet.context.newPage();
    await expect(bare.goto(`${origin()}/api/health`)).rejects.toThrow('ERR_CERT_DATE_INVALID');
    await bare.close();
    await old.close();
    await camp.restart();
    await isAtCamp(tablet.page);
    expect((await camp.digest(campaign)).entries).toBe(entries + 1);
    await tablet.close();
  });

  it('A7: a revoked tablet hears it at its next request; it writes on for itself, and its old entries stay', async () => {
    const tablet = await open('tablet');
    const { page } = tablet;
    await page.goto(origin());
    await page.getByRole('link', { name: /Ceredin Saddle/ }).click();
    await isAtCamp(page);
    const campaign = /\/c\/([^/]+)/.exec(page.url())![1]!;
    const { entries } = await camp.digest(campaign);

    // Paired by an older version, which asked for no key, it tells its key at its next start.
    const known = await listedKey();
    expect(known).toMatch(/^[\w-]{43}$/);
    await camp.kill('SIGTERM');
    const list = join(dataFolder(), 'network', 'devices.json');
    writeFileSync(list, readFileSync(list, 'utf8').replace(`"${known}"`, 'null'));
    await camp.restart();
    expect(await listedKey()).toBeNull();
    await page.reload();
    await expect.poll(listedKey, { timeout: 20_000 }).toBe(known);

    await screen.page.goto(`${camp.address}/devices`);
    await screen.page.getByRole('button', { name: 'Revoke tablet 2' }).click();
    // Control: while it is let in nothing is said against what it wrote.
    const counted = screen.page.getByText(/^Ceredin Saddle: \d+ entries signed by it\.$/);
    await counted.waitFor();
    await screen.page.goto(`${camp.address}/c/${campaign}/B/core`);
    await speakAs(screen.page, 'HN');
    await marks(screen.page).first().waitFor();
    expect(await sinceOf(screen.page)).toEqual([null]);
    await screen.page.goto(`${camp.address}/devices`);
    await screen.page.getByRole('button', { name: 'Revoke tablet 2' }).click();
    await screen.page.getByRole('button', { name: 'Yes, revoke it' }).click();
    await screen.page.getByText('it is not let in; its entries stay').waitFor();
    await counted.waitFor();
    expect(await violationsOn(screen.page, onTablet)).toEqual([]);

    // J5: what it wrote stays, and says where it comes from.
    await screen.page.goto(`${camp.address}/c/${campaign}/B/core`);
    await marks(screen.page).first().waitFor();
    await expect.poll(() => sinceOf(screen.page)).toEqual(['before']);
    expect(await marks(screen.page).first().textContent()).toMatch(
      /^signed by tablet 2, which was revoked on .+ \d\d:\d\d$/,
    );
    expect(await violationsOn(screen.page, onTablet)).toEqual([]);
    // Also while the camp computer is away.
    await camp.kill();
    await screen.page.reload();
    await marks(screen.page).first().waitFor();
    expect(await sinceOf(screen.page)).toEqual(['before']);
    await camp.restart();

    await drillRun(page, { to: '14.90' });
    await page.getByText('This device was revoked').waitFor();
    await isOnlyHere(page);
    expect((await camp.digest(campaign)).entries).toBe(entries);

    // Paired again, it brings what it wrote meanwhile.
    const { pair: address } = await showCodes();
    await pair(page, address, 'tablet 2');
    await page.goto(`${origin()}/c/${campaign}`);
    await isAtCamp(page);
    expect((await camp.digest(campaign)).entries).toBe(entries + 1);

    // Let in again it is trusted again, but for what it made meanwhile.
    await screen.page.goto(`${camp.address}/c/${campaign}/B/core`);
    const meanwhile = screen.page.locator('.history [data-since="made after"]');
    await meanwhile.first().waitFor();
    expect(await meanwhile.first().textContent()).toContain('by its clock this was made after that');
    expect(await violationsOn(screen.page, onTablet)).toEqual([]);
    await screen.page.goto(`${camp.address}/devices`);
    await screen.page.getByText(/1 came after it was revoked\. 1 of them was made after that/).waitFor();
    expect(await violationsOn(screen.page, onTablet)).toEqual([]);
    await tablet.close();
  });

  it('no screen of it breaks WCAG 2.2 AA, in every look and width', async () => {
    const codes = await showCodes();
    expect(await violationsOn(screen.page)).toEqual([]);
    await screen.page.goto(`${camp.address}/pair`);
    await screen.page.getByText('needs no pairing').waitFor();
    expect(await violationsOn(screen.page)).toEqual([]);
    const tablet = await open('tablet');
    await tablet.context.clearCookies();
    await tablet.page.goto(codes.pair);
    await pairs(tablet.page).waitFor();
    expect(await violationsOn(tablet.page)).toEqual([]);
    await tablet.page.goto(origin());
    await tablet.page.getByText('does not know this device').waitFor();
    expect(await violationsOn(tablet.page)).toEqual([]);
    await tablet.page.goto(codes.install);
    await tablet.page.getByRole('heading', { name: "The camp's certificate" }).waitFor();
    expect(await violationsOn(tablet.page)).toEqual([]);
    await tablet.close();
  });
});

/** The signing key under which the camp computer lists the tablet. */
const listedKey = async (): Promise<string | null> => {
  const list = (await (await fetch(`${camp.address}/api/devices`)).json()) as {
    readonly name: string;
    readonly publicKey: string | null;
  }[];
  return list.find((one) => one.name === 'tablet 2')?.publicKey ?? null;
};

/** The other widths are looked at in other tests. */
const onTablet = { looks: ['standard', 'sun', 'night'], sizes: [[820, 1180]] } as const;

/** Who made each line of the ice's history. */
const marks = (page: Page) => page.locator('.history [data-proof]');
const sinceOf = async (page: Page): Promise<readonly (string | null)[]> => [
  ...new Set(await marks(page).evaluateAll((all) => all.map((one) => one.getAttribute('data-since')))),
];

/** A browser that is new to a campaign asks who writes. */
async function speakAs(page: Page, initials: string): Promise<void> {
  const who = page.getByRole('heading', { name: 'Who is writing?' });
  await who.or(marks(page).first()).first().waitFor();
  if (await who.isVisible()) await page.getByRole('button', { name: initials }).click();
}

/** Answers at the camp computer's address with a certificate of the camp that is past its date. */
async function oldServer(): Promise<{ close(): Promise<void> }> {
  const at = (file: string) => join(dataFolder(), 'network', file);
  const here = (file: string) => join(scratch.path, file);
  const openssl = (...words: string[]) => execFileSync('openssl', words, { stdio: 'pipe' });
  writeFileSync(here('old.ext'), `subjectAltName=DNS:${name}\nextendedKeyUsage=serverAuth\n`);
  openssl('req', '-new', '-key', at('server.key.pem'), '-subj', '/CN=old', '-out', here('old.csr'));
  const signed = ['-CA', at('authority.pem'), '-CAkey', at('authority.key.pem'), '-set_serial', '77'];
  const made = ['-days', '-1', '-extfile', here('old.ext'), '-out', here('old.pem')];
  openssl('x509', '-req', '-in', here('old.csr'), ...signed, ...made);
  const server = createSecure(
    { cert: readFileSync(here('old.pem')), key: readFileSync(at('server.key.pem')) },
    (_request, response) => response.end('not reached'),
  );
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  return {
    close: () =>
      new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const taken = probe.address() as { port: number };
      probe.close(() => resolve(taken.port));
    });
  });
}
