import type { Entry } from '../entry.ts';
import { open } from '../seal.ts';
import { apply, emptyPage, type Page, readAloud, standing, threadsOf } from './book.ts';
import { type Machine, signatureBy, type Tab, type World } from './world.ts';

/** An invariant that did not hold; `rule` is its number. */
export class Violation extends Error {
  readonly rule: string;
  constructor(rule: string, what: string) {
    super(`${rule}: ${what}`);
    this.rule = rule;
  }
}

/** What has been seen on one disk, so that each row is looked at once. */
interface Inspected {
  count: number;
  readonly entries: Map<string, Entry>;
  readonly ids: Set<string>;
  /** Hashes by device and sequence. */
  readonly places: Map<string, string>;
  /** Keys that chains have stated up to an entry, by its hash. */
  readonly keys: Map<string, string>;
}

export interface Inspector {
  /** Look at every new row of a disk: I2, I4, I5, I6, J2, J9. */
  disk(one: Machine): void;
  /** Entries whose writer was told "saved" are on its disk: J4, and I1 from its beginning. */
  saved(one: Machine, entries: readonly Entry[]): void;
  /** What this tab shows as safe on the server is there: I9. */
  ticks(one: Machine, tab: Tab): void;
  /** All machines hold the same, nothing saved is missing, and everybody sees the same: I1, I3, I6, I7, I8. */
  peace(): void;
}

function blank(): Inspected {
  return { count: 0, entries: new Map(), ids: new Set(), places: new Map(), keys: new Map() };
}

export function createInspector(world: World): Inspector {
  const disks = new Map<Machine['disk'], Inspected>();
  const contents = new Map<string, string>();

  function inspect(one: Machine): Inspected {
    const { rows } = one.disk;
    let seen = disks.get(one.disk);
    if (seen === undefined) disks.set(one.disk, (seen = blank()));
    if (rows.length < seen.count) throw new Violation('I6', `${one.name} forgot entries`);
    for (; seen.count < rows.length; seen.count += 1) {
      const { hash, head, signature } = rows[seen.count]!;
      const opened = world.opened.get(hash);
      // The simulator remembers what it opened; an entry just written is opened when somebody receives it.
      const entry = opened?.ok ? opened.entry : openedAnew(world, rows[seen.count]!);
      look(one, seen, entry);
      const { previous, key: own } = entry.header;
      const key = (previous === null ? undefined : seen.keys.get(previous)) ?? own;
      if (key === undefined) continue;
      seen.keys.set(hash, key);
      if (signature !== signatureBy(key, head))
        throw new Violation(
          'J9',
          `${one.name} stored ${entry.header.id} without the signature of its device`,
        );
    }
    return seen;
  }

  function look(one: Machine, seen: Inspected, entry: Entry): void {
    const { id, device, sequence, previous, stamp, corrects } = entry.header;
    if (seen.entries.has(entry.hash)) throw new Violation('J2', `${one.name} stored ${id} twice`);
    const content = contents.get(id);
    if (content !== undefined && content !== entry.hash) throw new Violation('I2', `${id} has two contents`);
    contents.set(id, entry.hash);
    const before = previous === null ? undefined : seen.entries.get(previous);
    if (previous !== null && (before?.header.device !== device || before.header.sequence !== sequence - 1)) {
      throw new Violation('I5', `${one.name}: ${id} (${device} ${sequence}) follows nothing`);
    }
    const place = `${device} ${sequence}`;
    if (seen.places.has(place) && !world.cloned.has(device))
      throw new Violation('I5', `${place} was used twice`);
    seen.places.set(place, entry.hash);
    seen.entries.set(entry.hash, entry);
    seen.ids.add(id);
    for (const target of corrects ?? []) {
      if (!seen.ids.has(target)) throw new Violation('I4', `${one.name} stored ${id} without ${target}`);
      const corrected = world.opened.get(contents.get(target)!);
      if (corrected?.ok && corrected.entry.header.stamp >= stamp) {
        throw new Violation('I4', `${id} is not later than ${target}, which it corrects`);
      }
    }
  }

  function peace(): void {
    const everyone = [world.server, ...world.tablets];
    const first = inspect(world.server);
    for (const one of everyone) {
      const seen = inspect(one);
      for (const [hash, entry] of world.saved) {
        if (!seen.entries.has(hash))
          throw new Violation('I1', `${one.name} misses ${entry.header.id}, which was saved`);
      }
      if (
        seen.entries.size !== first.entries.size ||
        [...seen.entries.keys()].some((hash) => !first.entries.has(hash))
      ) {
        throw new Violation('I3', `${one.name} and the server hold different entries`);
      }
    }
    const rebuilt = rebuild([...first.entries.values()]);
    const expected = readAloud(rebuilt);
    for (const one of everyone) {
      for (const tab of one.tabs) {
        if (tab.replica.ledger.size !== first.entries.size)
          throw new Violation('I6', `${one.name} shows less than it holds`);
        const shown = readAloud(tab.book.threads().map((thread) => [thread, tab.book.state(thread)!]));
        if (shown !== expected)
          throw new Violation('I7', `${one.name} shows something else than a fold from scratch`);
      }
    }
    for (const [thread, page] of rebuilt) {
      if (page.early > 0) throw new Violation('I4', `in ${thread} a correction came before its target`);
      for (const [thing, claims] of page.things) checkClaims([...first.entries.values()], thing, claims);
    }
  }

  return {
    disk: inspect,
    saved(one, entries) {
      const seen = inspect(one).entries;
      const lost = entries.find((entry) => !seen.has(entry.hash));
      if (lost !== undefined)
        throw new Violation('I1', `${one.name} said saved and had not: ${lost.header.id}`);
    },
    ticks(one, tab) {
      if (!tab.heard.has(world.server.disk.epoch)) return;
      const there = inspect(world.server).entries;
      const safety = tab.replica.safety('camp');
      for (const entry of tab.replica.ledger.entries()) {
        if (safety.holds(entry) && !there.has(entry.hash)) {
          throw new Violation('I9', `${one.name} shows ${entry.header.id} as being on the server`);
        }
      }
    },
    peace,
  };
}

/** Everything from scratch, with an order written differently from order.ts. */
function rebuild(entries: readonly Entry[]): Map<string, Page> {
  const key = ({ header, hash }: Entry) =>
    [header.stamp, header.device, String(header.sequence).padStart(16, '0'), hash].join('\n');
  const pages = new Map<string, Page>();
  for (const [, entry] of entries
    .map((one) => [key(one), one] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1))) {
    for (const thread of threadsOf(entry)) {
      if (!pages.has(thread)) pages.set(thread, emptyPage());
      apply(pages.get(thread)!, entry);
    }
  }
  return pages;
}

/** I8 without any fold: a claim stands when no entry corrects it; all that stand must be shown. */
function checkClaims(entries: readonly Entry[], thing: string, claims: Parameters<typeof standing>[0]): void {
  const about = entries.filter(({ header, body }) => header.id === thing || body?.thing === thing);
  const corrected = new Set(about.flatMap((entry) => entry.header.corrects ?? []));
  const expected = about.map((entry) => entry.header.id).filter((id) => !corrected.has(id));
  const shown = standing(claims).map((claim) => claim.entry);
  if (expected.sort().join() !== shown.sort().join()) {
    throw new Violation('I8', `of ${thing} the readings ${expected.join()} stand, ${shown.join()} are shown`);
  }
}

function openedAnew(world: World, sealed: Entry['sealed']): Entry {
  const ledgers = [world.server, ...world.tablets].flatMap((one) =>
    one.tabs.map((tab) => tab.replica.ledger),
  );
  const held = ledgers.map((ledger) => ledger.get(sealed.hash)).find((entry) => entry !== undefined);
  const opened = held === undefined ? open(sealed) : ({ ok: true, entry: held } as const);
  if (!opened.ok) throw new Violation('I6', `a row cannot be opened: ${opened.problem}`);
  world.opened.set(sealed.hash, opened);
  return opened.entry;
}
