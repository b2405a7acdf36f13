import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Copies, Held } from './pages/store.ts';
import { visitStore } from './store-page.ts';
import { openTablet, type Tablet } from './tablet.ts';
import { tearLog } from './torn-log.ts';

/** What became of one tablet that was killed so often. */
export interface Killed {
  readonly acknowledged: number;
  readonly lost: number;
  /** Entries that the browser had dropped with its database and that came back from the second copy. */
  readonly putBack: number;
  readonly last: Held;
}

export interface KillPlan {
  /** Folder for the profile, and the campaign's name; new for each tablet. */
  readonly folder: string;
  readonly name: string;
  readonly kills: number;
  /** Undefined for a store as the screens open it. */
  readonly copies: Copies | undefined;
  /** Whether every second kill is one in the middle of a record of the browser's log. */
  readonly tears: boolean;
}

/**
 * B1: a brand-new profile that is killed while it writes. After a kill in the middle of a record Chromium calls its log
 * damaged at the start after the next, and drops the database, unless a new log was begun.
 */
export async function killTablet(address: string, plan: KillPlan): Promise<Killed> {
  const { name, copies } = plan;
  const profile = join(plan.folder, name);
  const acknowledged: string[] = [];
  const lost = new Set<string>();
  let putBack = 0;
  const look = async ({ page }: Tablet): Promise<Held> => {
    await visitStore(page, address);
    const held = await page.evaluate(([to, kept]) => storePage.held(to, kept), [name, copies] as const);
    const ids = new Set(held.ids);
    for (const id of acknowledged) if (!ids.has(id)) lost.add(id);
    putBack += held.putBack;
    return held;
  };
  for (let round = 0; round < plan.kills; round += 1) {
    const tablet = await openTablet(profile);
    await look(tablet);
    const before = acknowledged.length;
    await tablet.page.exposeFunction('acknowledge', (id: string) => void acknowledged.push(id));
    tablet.page
      .evaluate(([to, kept]) => storePage.writeWithoutEnd(to, 'acknowledge', kept), [name, copies] as const)
      .catch(() => undefined);
    // Until writing is under way, then for a time that differs from round to round.
    while (acknowledged.length < before + 5) await wait(5);
    await wait(61 * (round % 10));
    await tablet.kill();
    if (plan.tears && round % 2 === 0) tearLog(profile);
  }
  const tablet = await openTablet(profile);
  try {
    const last = await look(tablet);
    return { acknowledged: acknowledged.length, lost: lost.size, putBack, last };
  } finally {
    await tablet.kill();
  }
}
