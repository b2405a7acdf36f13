import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import type { Sealed } from '@firnbook/journal';
import { makeDisk, type SmallDisk } from './disk.ts';
import { visitStore } from './store-page.ts';
import { openTablet, type Tablet } from './tablet.ts';

/** What became of what a tablet had acknowledged. */
interface Rounds {
  readonly rounds: number;
  readonly acknowledged: number;
  readonly lost: number;
  /** Rounds in which something was lost. */
  readonly lostRounds: number;
}

export interface Cuts extends Rounds {
  /** Entries that the browser had dropped with its database and that came back from the second copy. */
  readonly putBack: number;
}

const campaign = 'ceredin-guard';
const megabytes = 70;

async function openOn(disk: SmallDisk, address: string): Promise<Tablet> {
  const tablet = await openTablet(join(disk.path, 'profile'));
  await visitStore(tablet.page, address);
  return tablet;
}

/** Waits until it is so; what then is not so is said with the words, and what was heard last. */
async function until(
  is: () => boolean,
  words: string,
  { milliseconds = 60_000, last = (): string => '' } = {},
): Promise<void> {
  for (const start = Date.now(); !is(); await wait(10))
    if (Date.now() - start > milliseconds)
      throw new Error(`For ${milliseconds / 1000} s it was waited until ${words}. ${last()}`);
}

/**
 * B2: a tablet that has been in use loses its power while it writes: every process stops, what its disk holds at that
 * moment is copied, and a browser starts on the copy. 'ours' is the browser store, and 'torn log' the same as it goes on
 * behind a record that the cut before tore; the others are bare databases.
 */
export async function cutPower(
  address: string,
  rounds: number,
  what: 'ours' | 'torn log' | IDBTransactionDurability,
): Promise<Cuts> {
  const copies = what === 'torn log' ? 2 : undefined;
  const total = { rounds, acknowledged: 0, lost: 0, lostRounds: 0, putBack: 0 };
  let disk = makeDisk(megabytes);
  // What the rounds before acknowledged has to be there as well.
  const acknowledged: (string | number)[] = [];
  try {
    for (let round = 0; round < rounds; round += 1) {
      const tablet = await openOn(disk, address);
      const before = acknowledged.length;
      await tablet.page.exposeFunction('acknowledge', (one: string | number) => void acknowledged.push(one));
      const writing =
        what === 'ours' || what === 'torn log'
          ? tablet.page.evaluate(([name, kept]) => storePage.writeWithoutEnd(name, 'acknowledge', kept), [
              campaign,
              copies,
            ] as const)
          : tablet.page.evaluate(
              ([name, durability]) => storePage.writeBare(name, 'acknowledge', durability),
              [campaign, what] as const,
            );
      writing.catch(() => undefined);
      await until(() => acknowledged.length > before + 20, 'writing was under way');
      await wait(300 + 97 * round);
      tablet.freeze();
      // What it had said before it stopped is on its way to us.
      await wait(50);
      const told = [...acknowledged];
      const after = disk.cut();
      await tablet.kill();
      disk.remove();
      disk = after;
      const again = await openOn(disk, address);
      const { ids, putBack } =
        what === 'ours' || what === 'torn log'
          ? await again.page.evaluate(([name, kept]) => storePage.held(name, kept), [
              campaign,
              copies,
            ] as const)
          : { ids: await again.page.evaluate((name) => storePage.heldBare(name), campaign), putBack: 0 };
      const held = new Set<string | number>(ids);
      total.putBack += putBack;
      await again.close();
      const lost = told.filter((one) => !held.has(one));
      total.acknowledged += told.length - before;
      total.lost += lost.length;
      if (lost.length > 0) total.lostRounds += 1;
      acknowledged.splice(0, acknowledged.length, ...told.filter((one) => held.has(one)));
    }
  } finally {
    disk.remove();
  }
  return total;
}

export interface Fills extends Rounds {
  /** Entries that were refused while the disk was full. */
  readonly refused: number;
  /** Rounds in which entries were saved again: in the ballast's room, and after another program gave its room back. */
  readonly wentOn: number;
  /** How often the page was loaded again, and the browser closed and opened, because it said so. */
  readonly loaded: number;
  readonly reopened: number;
  /** Entries that only a copy, saved before the browser was closed, had kept. */
  readonly brought: number;
}

/**
 * B4: the disk of a tablet fills up while a person goes on writing, by what the tablet writes or by another program,
 * until nothing is left even after the ballast was given back. Then the other program gives its room back. The
 * control has neither guard nor second copy.
 */
export async function fillDisk(
  address: string,
  rounds: number,
  by: 'itself' | 'another',
  isGuarded: boolean,
): Promise<Fills> {
  const total = {
    rounds,
    acknowledged: 0,
    lost: 0,
    lostRounds: 0,
    refused: 0,
    wentOn: 0,
    loaded: 0,
    reopened: 0,
    brought: 0,
  };
  for (let round = 0; round < rounds; round += 1) {
    const disk = makeDisk(megabytes);
    try {
      const one = await fillOnce(disk, address, by, isGuarded, 500 + 83 * round);
      total.acknowledged += one.saved;
      total.lost += one.lost;
      total.refused += one.refused;
      total.loaded += one.loaded;
      total.reopened += one.reopened;
      total.brought += one.brought;
      if (one.lost > 0) total.lostRounds += 1;
      if (one.wentOn) total.wentOn += 1;
    } finally {
      disk.remove();
    }
  }
  return total;
}

/**
 * A person who goes on writing whatever is refused, and does what the page says: loads it again; or saves a copy, frees
 * room, closes the browser, opens it again, and brings in what the copy alone has kept.
 *
 * @param open a browser on this person's tablet
 */
async function startPerson(open: () => Promise<Tablet>, address: string, size: number, isGuarded: boolean) {
  let tablet = await open();
  const saved: string[] = [];
  const seen = { refused: 0, loaded: 0, reopened: 0, brought: 0 };
  let isBusy = false;
  let isOver = false;
  let isStuck = false;
  let hasFreed = false;
  let copy: readonly Sealed[] = [];
  let last = '';

  const write = () => {
    tablet.page
      .evaluate(([name, of, guarded]) => storePage.persist(name, 'tell', of, guarded), [
        campaign,
        size,
        isGuarded,
      ] as const)
      .catch(() => again('loaded'));
  };
  const again = async (what: 'loaded' | 'reopened'): Promise<void> => {
    if (!isGuarded || isOver || isBusy) return;
    isBusy = true;
    await wait(500);
    try {
      if (what === 'loaded') await visitStore(tablet.page, address);
      else {
        const held = await tablet.page.evaluate(() => storePage.carryAway()).catch(() => []);
        if (held.length > copy.length) copy = held;
        await tablet.close();
        tablet = await open();
        await listen();
        seen.brought += await tablet.page.evaluate(([name, all]) => storePage.bringIn(name, all), [
          campaign,
          copy,
        ] as const);
      }
    } catch (error) {
      last = `${what}: ${error}`;
      isBusy = false;
      return again(what);
    }
    isBusy = false;
    isStuck = false;
    seen[what] += 1;
    write();
  };
  const listen = () =>
    tablet.page.exposeFunction('tell', (line: string) => {
      if (line.startsWith('saved ')) {
        saved.push(line.slice('saved '.length));
        isStuck = false;
        return;
      }
      seen.refused += 1;
      last = line;
      isStuck = line.includes('close the browser');
      if (line.includes('The journal was closed')) void again('loaded');
      if (isStuck && hasFreed) void again('reopened');
    });

  await listen();
  write();
  return {
    saved,
    seen,
    tablet: () => tablet,
    isStuck: () => isStuck,
    freed: () => {
      hasFreed = true;
    },
    last: () => `${JSON.stringify(seen)}, last heard: ${last}`,
    end: () => {
      isOver = true;
    },
  };
}

async function fillOnce(
  disk: SmallDisk,
  address: string,
  by: 'itself' | 'another',
  isGuarded: boolean,
  milliseconds: number,
) {
  const open = () => openOn(disk, address);
  const size = by === 'itself' ? 20_000 : 200;
  const person = await startPerson(open, address, size, isGuarded);
  const { saved, seen, tablet, end, last } = person;
  try {
    await until(() => saved.length > 50, 'fifty entries were saved', { last });
    if (isGuarded)
      await tablet().page.waitForFunction(() => storePage.room().room === 'whole', null, { timeout: 30_000 });
    await wait(milliseconds);
    if (by === 'another') disk.fill();
    await until(() => seen.refused > 0, 'an entry was refused', { milliseconds: 120_000, last });
    const atFirst = saved.length;
    if (isGuarded)
      await until(
        () => saved.length > atFirst + 5 || person.isStuck(),
        'entries went on in the room of the ballast',
        { last },
      );
    // Now the other program takes that as well, and the person goes on trying.
    for (let more = 0; more < 10; more += 1) {
      disk.fill();
      await wait(300);
    }
    const atEnd = saved.length;
    disk.empty();
    person.freed();
    if (isGuarded)
      await until(() => saved.length > atEnd + 5, 'entries went on after room was made', { last });
    else await wait(1_000);
    const wentOn = saved.length > atEnd;
    end();
    await tablet().kill();
    const next = await open();
    const held = await next.page
      .evaluate((name) => storePage.held(name), campaign)
      // A browser may still be in the middle of erasing; what can't be read is lost to a person.
      .catch(() => ({ ids: [] as readonly string[] }));
    await next.close();
    const ids = new Set(held.ids);
    return { ...seen, saved: saved.length, lost: saved.filter((id) => !ids.has(id)).length, wentOn };
  } finally {
    end();
    await tablet().kill();
  }
}
