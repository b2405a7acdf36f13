import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { type BrowserContext, chromium, type Page } from 'playwright-core';

/** A browser with a profile that outlives it: a tablet that can be switched off or lose its power. */
export interface Tablet {
  readonly context: BrowserContext;
  /** The first page of the browser. */
  readonly page: Page;
  /** Every process of the browser stops where it is, as at the moment when the power goes; `kill` still works. */
  freeze(): void;
  /** Every process of the browser ends at once, as when it crashes or the tablet's battery dies. */
  kill(): Promise<void>;
  /** Closes it in good order. */
  close(): Promise<void>;
}

/** What one test's tablet has that the others' don't. */
interface Peculiar {
  readonly args?: readonly string[];
  /** Its account's folder, where Chromium looks for certificates that a person installed. */
  readonly home?: string;
}

export const browserProgram = '/usr/bin/chromium';

const args = [
  '--headless=new',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--no-first-run',
  '--no-default-browser-check',
  '--remote-debugging-port=0',
];

/**
 * Started by hand and not by Playwright, which keeps the process to itself: a test must be able to kill it.
 *
 * @param profile folder of the profile; made where it is missing
 * @param size of the window in CSS pixels
 */
export async function openTablet(
  profile: string,
  size = { width: 1280, height: 900 },
  more: Peculiar = {},
): Promise<Tablet> {
  const portFile = join(profile, 'DevToolsActivePort');
  rmSync(portFile, { force: true });
  const child = spawn(
    browserProgram,
    [
      ...args,
      ...(more.args ?? []),
      `--window-size=${size.width},${size.height}`,
      `--user-data-dir=${profile}`,
      'about:blank',
    ],
    // A process group of its own, so that all of the browser's processes can be killed together.
    {
      stdio: 'ignore',
      detached: true,
      ...(more.home !== undefined && { env: { ...process.env, HOME: more.home } }),
    },
  );
  const port = await readPort(child, portFile);
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const context = browser.contexts()[0]!;
  const page = context.pages()[0] ?? (await context.newPage());
  await page.setViewportSize(size);
  const isGone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    context,
    page,
    freeze: () => void process.kill(-child.pid!, 'SIGSTOP'),
    async kill() {
      killAll(child);
      await isGone;
      await browser.close().catch(() => undefined);
    },
    async close() {
      const session = await browser.newBrowserCDPSession();
      await session.send('Browser.close').catch(() => undefined);
      await Promise.race([isGone, wait(5_000)]);
      killAll(child);
      await isGone;
    },
  };
}

function killAll(child: ChildProcess): void {
  try {
    process.kill(-child.pid!, 'SIGKILL');
  } catch {
    // Already gone.
  }
}

async function readPort(child: ChildProcess, file: string): Promise<number> {
  for (let tries = 0; tries < 300; tries += 1) {
    if (child.exitCode !== null) throw new Error('Chromium ended before it was ready.');
    if (existsSync(file)) {
      const port = Number(readFileSync(file, 'utf8').split('\n')[0]);
      if (port > 0) return port;
    }
    await wait(50);
  }
  throw new Error('Chromium did not say where it listens.');
}
