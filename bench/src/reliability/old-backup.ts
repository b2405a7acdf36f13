/**
 * D9: the camp computer is lost with its disk, and so is a tablet. A new computer is set up from an old backup by the
 * command of the handbook; the tablets that are left sync, and everything that any of them holds has to be back: also
 * what the lost tablet had brought to the lost computer and others had heard of.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { digest, openReplica, type Replica, type Request } from '@firnbook/journal';
import { backUp, campaignPaths, openSqliteStore, verifyJournal } from '@firnbook/storage/sqlite';
import { recover } from './backups.ts';
import { heldAt, newCampaign, outside, post, runLogged, sync } from './crew.ts';
import { startServerProcess } from './server-process.ts';

export interface OldBackup {
  /** Entries that the lost computer held, that the backup brought, and that the new computer holds in the end. */
  readonly before: number;
  readonly restored: number;
  readonly after: number;
  /** Entries of the lost tablet that were not in the backup and that others had. */
  readonly ofTheLost: number;
  readonly lost: number;
  readonly isSame: boolean;
  /** From the command to equal digests, seconds. */
  readonly seconds: number;
}

const some = 40;

/** @param offers 'own': the control, tablets that bring back what they wrote themselves and nothing else */
export async function comeBackFromOldBackup(offers: 'all' | 'own'): Promise<OldBackup> {
  const folder = mkdtempSync(join(tmpdir(), 'firnbook-old-'));
  const [old, fresh, stick] = [join(folder, 'old'), join(folder, 'new'), join(folder, 'stick')];
  const campaign = newCampaign();
  let server = startServerProcess(old);
  const stores = ['a', 'b', 'c'].map((name) => openSqliteStore(join(folder, `${name}.sqlite`), campaign));
  try {
    let address = await server.address;
    const tablets: Replica[] = [];
    for (const store of stores)
      tablets.push(await openReplica(store, { ...outside, opened: store.handOver() }));
    const [a, b, c] = tablets as [Replica, Replica, Replica];
    for (const tablet of tablets) await log(tablet);
    for (const tablet of [...tablets, ...tablets]) await sync(tablet, address);
    await backUp(old, campaign, stick);
    const known = new Set(c.ledger.entries().map(({ hash }) => hash));
    for (const tablet of tablets) await log(tablet);
    for (const tablet of [...tablets, ...tablets]) await sync(tablet, address);
    const before = await heldAt(address, campaign);
    const ofTheLost = c.ledger
      .entries()
      .filter(({ hash, header }) => header.device === c.device && !known.has(hash));
    await server.kill();
    rmSync(old, { recursive: true });
    for (const tablet of [a, b]) await log(tablet);
    const onTablets = new Set([...a.ledger.entries(), ...b.ledger.entries()].map(({ hash }) => hash));

    const begun = performance.now();
    if (!recover(stick, fresh)) throw new Error('The old backup could not be put back.');
    server = startServerProcess(fresh);
    address = await server.address;
    const restored = await heldAt(address, campaign);
    const bring = offers === 'all' ? sync : syncOwn;
    for (const tablet of [a, b, a]) await bring(tablet, address);
    const after = await heldAt(address, campaign);
    const seconds = (performance.now() - begun) / 1000;
    await server.kill();
    const held = new Set<string>();
    const { ok } = verifyJournal(campaignPaths(fresh, campaign).journal, ({ hash }) => void held.add(hash));
    return {
      ...{ before: before.entries, restored: restored.entries, after: after.entries, seconds },
      ofTheLost: ofTheLost.length,
      lost: [...onTablets].filter((hash) => !held.has(hash)).length,
      isSame: ok && [a, b].every((tablet) => digest(tablet.ledger) === after.digest),
    };
  } finally {
    await server.kill();
    for (const store of stores) await store.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

const log = (tablet: Replica): Promise<unknown> =>
  tablet.write(Array.from({ length: some }, (_, step) => runLogged(tablet.ledger.size + step)));

/** As `sync`, by a tablet that thinks that what others wrote is theirs to bring. */
async function syncOwn(tablet: Replica, address: string): Promise<void> {
  const own = (request: Request): Request => ({
    ...request,
    entries: request.entries.filter(({ head }) => head.includes(`"device":"${tablet.device}"`)),
  });
  for (let round = 0; round < 20; round += 1)
    await tablet.hear('camp', await post(own(tablet.ask('camp')), address));
}
