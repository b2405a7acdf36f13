import { type Book, type Command, createBook, type Decision } from '@firnbook/campaign';
import { type Draft, newId, openReplica, type Replica, type Store, type Verify } from '@firnbook/journal';
import { startCarrying } from '../carry/carrying.ts';
import type { Said } from '../texts/say-here.ts';
import type { TextKey } from '../texts/t.ts';
import type { BookHandle, Taken } from './book.ts';
import { startFiles } from './files.ts';
import { keep, recall } from './kept.ts';
import { watchLoss } from './loss.ts';
import { observedNow } from './observed.ts';
import { nextTalk } from './pace.ts';
import { startSecond } from './second.ts';
import { type Solving, startSolving } from './solving.ts';
import type { Surroundings } from './surroundings.ts';
import { startTalk, type Talk } from './talk.ts';
import { nothingKnown, tally } from './tally.ts';
import { mayTryAgain, saidOf } from './trouble-said.ts';

/** One campaign on this device: journal, fold, depths and the exchange with the camp computer. */
export interface CampaignBook {
  readonly id: string;
  /** The same object until something changes. */
  snapshot(): BookHandle;
  subscribe(listener: () => void): () => void;
  /** The page was looked at again, or the network came back. */
  wake(): void;
  /** What the device or the browser says changed: its name, what it lacks. */
  refresh(): void;
  close(): void;
}

export interface BookOptions {
  readonly surroundings: Surroundings;
  /**
   * Resolves when a journal for this campaign may be made here: it is new, held already, or the camp computer has
   * it. True where the camp computer may be asked for it at once; it knows nothing of a new one.
   */
  readonly mayOpen: (campaign: string, whatIsMissing: (what: Said) => void) => Promise<boolean>;
  /** Something the list of campaigns shows has changed. */
  readonly onListed: (book: BookHandle) => void;
  readonly deviceName: () => string;
  readonly lacks: () => readonly TextKey[];
}

/** Writes that failed: whether they were kept is unknown, so the same entries are offered until one write succeeds. */
interface Unsettled {
  readonly drafts: readonly Draft[];
  /** What each command that waits for it will be told. */
  readonly taken: ReadonlyMap<string, Taken>;
}

interface Open {
  readonly replica: Replica;
  readonly notes: Pick<Store, 'note' | 'setNote'>;
  readonly verify: Verify | undefined;
  readonly copies: 1 | 2;
  readonly talk: Talk;
}

/** A save that takes longer, ms, is shown while it is under way; drawing the screens for each would be what takes so long. */
const noticed = 150;

export function openCampaignBook(id: string, options: BookOptions): CampaignBook {
  const { surroundings } = options;
  const book: Book = createBook();
  const solving: Solving = startSolving(surroundings.solver, () => changed());
  const listeners = new Set<() => void>();
  const loss = watchLoss(id);
  const second = startSecond(id, surroundings.camp, () => changed());
  const files = startFiles(id, surroundings.camp, surroundings.openFiles);
  let open: Open | null = null;
  let me = recall(`me.${id}`);
  let saving = 0;
  let unsettled: Unsettled | null = null;
  /** Commands that failed and were kept with another write since: whoever tries one again is told so, once. */
  const keptSince = new Map<string, Taken>();
  let trouble: Said | null = null;
  let clockDrift: number | null = null;
  let isClosed = false;
  let stopListening: () => void = () => undefined;
  let handle: BookHandle | null = null;
  /** Set while listeners are about to be told. */
  let telling: ReturnType<typeof setTimeout> | undefined;

  const tell = () => {
    clearTimeout(telling);
    telling = undefined;
    for (const listener of listeners) listener();
  };

  /** One save changes several things one after the other: the screens are drawn once for all of them. */
  const changed = () => {
    handle = null;
    telling ??= setTimeout(tell);
  };

  const fail = (error: unknown) => {
    trouble = saidOf(error);
    changed();
  };

  const start = async (): Promise<Open> => {
    const isKnown = await options.mayOpen(id, (what) => {
      trouble = what;
      changed();
    });
    trouble = null;
    const [store, signing] = await Promise.all([surroundings.openStore(id), surroundings.signing()]);
    const replica = await openReplica(store, {
      ...signing,
      now: surroundings.now,
      randomBytes: surroundings.randomBytes,
      exclusive: (work) => surroundings.exclusive(id, work),
    });
    loss.opened(replica.ledger.size + replica.damaged.length, store.putBack);
    const see = (added: Parameters<Book['add']>[0]) => {
      book.add(added);
      if (added.length > 0) loss.holds();
      solving.follow(book.view());
      changed();
      options.onListed(snapshot());
    };
    see(replica.ledger.entries());
    replica.subscribe(see);
    const talk = startTalk({
      replica,
      camp: surroundings.camp,
      isVisible: surroundings.isVisible,
      onHeard: (heard) => {
        clockDrift = heard.clockOff;
        if (unsettled === null) trouble = null;
        if (heard.added.length > 0) surroundings.announce(id);
        void files.send();
        void second.ask();
        changed();
      },
      onState: changed,
      onTrouble: fail,
    });
    // Another tab wrote: read it, and ask the camp computer about it for this tab's own ticks.
    stopListening = surroundings.listen(id, () => {
      replica.refresh().then(() => talk.now(), fail);
    });
    if (isClosed) talk.close();
    open = { replica, notes: store, verify: signing.verify, copies: store.copies, talk };
    changed();
    if (isKnown) void talk.now();
    return open;
  };
  const ready = start();
  ready.catch(fail);

  /** @param command the one that is told by the caller */
  const write = async ({ replica, talk }: Open, wanted: Unsettled, command: string | null): Promise<void> => {
    // What failed before goes first and as it was: the same ids can't be doubled.
    const before: Unsettled | null = unsettled === wanted ? null : unsettled;
    const drafts = [...(before?.drafts ?? []), ...wanted.drafts];
    const taken = new Map([...(before?.taken ?? []), ...wanted.taken]);
    saving = drafts.length;
    const slow = setTimeout(changed, noticed);
    try {
      await replica.write(drafts);
    } catch (error) {
      unsettled = { drafts, taken };
      fail(error);
      throw error;
    } finally {
      clearTimeout(slow);
    }
    saving = 0;
    unsettled = null;
    for (const [other, told] of taken) if (other !== command) keptSince.set(other, told);
    trouble = null;
    changed();
    // Whoever waits for the save goes on with a screen that shows it.
    tell();
    surroundings.announce(id);
    void talk.now();
  };

  /** Says once under which name this device writes, and again when the name or the device's id changes. */
  const naming = ({ replica }: Open, by: string, observedAt: string): readonly Draft[] => {
    const name = options.deviceName();
    const said = book.view().devices?.findLast((one) => one.readings.device?.text === replica.device);
    if (said?.readings.name?.text === name) return [];
    const command: Command = { do: 'log', kind: 'device', readings: { device: replica.device, name } };
    const decision = book.decide(command, { by, observedAt, newId: () => newId(surroundings) });
    return decision.ok ? decision.drafts : [];
  };

  const take = async (opened: Open, command: Command, observedAt: string): Promise<Taken> => {
    await opened.replica.refresh();
    const text = JSON.stringify(command);
    const since = keptSince.get(text);
    if (since !== undefined) {
      keptSince.delete(text);
      return since;
    }
    const failed = unsettled?.taken.get(text);
    if (unsettled !== null && failed !== undefined) {
      await write(opened, unsettled, text);
      return failed;
    }
    const decision: Decision = book.decide(command, {
      by: me ?? '',
      observedAt,
      newId: () => newId(surroundings),
    });
    if (!decision.ok) return decision;
    const by = decision.drafts[0]?.by ?? me ?? '';
    const taken: Taken = {
      ok: true,
      entries: decision.drafts.map((draft) => draft.id),
      doubts: decision.doubts,
    };
    // A person must be there before what they say: their entry goes first, the device's name after it.
    const drafts = [...decision.drafts, ...naming(opened, by, observedAt)];
    await write(opened, { drafts, taken: new Map([[text, taken]]) }, text);
    return taken;
  };

  const decide: BookHandle['decide'] = async (command, observedAt) => {
    const opened = await ready;
    const at = observedAt ?? observedNow(new Date(surroundings.now()));
    for (let failures = 1; ; failures += 1) {
      try {
        // One tab decides at a time, so that two can't both find the number 34 free.
        const taken = await surroundings.exclusive(`decide-${id}`, () => take(opened, command, at));
        if (unsettled === null && trouble !== null) {
          trouble = null;
          changed();
        }
        return taken;
      } catch (error) {
        // Where it was the reading that stayed silent, nobody has said so yet.
        fail(error);
        if (!mayTryAgain(error) || isClosed) throw error;
        const pause = nextTalk({ failures, unsent: 1, visible: true });
        await new Promise((resolve) => setTimeout(resolve, pause ?? 0));
      }
    }
  };

  const entries: BookHandle['entries'] = async () => {
    const opened = await ready;
    if (unsettled !== null) await write(opened, unsettled, null);
    await opened.replica.refresh();
    return opened.replica.ledger.entries();
  };

  const keepDrafts: BookHandle['keepDrafts'] = async (drafts) => {
    const opened = await ready;
    const [first] = drafts;
    if (first === undefined) return;
    await surroundings.exclusive(`decide-${id}`, async () => {
      await opened.replica.refresh();
      const command = drafts.map((draft) => draft.id).join(' ');
      if (keptSince.delete(command)) return;
      if (unsettled?.taken.has(command)) return write(opened, unsettled, command);
      const own = [...drafts, ...naming(opened, first.by, first.observedAt)];
      const taken: Taken = { ok: true, entries: drafts.map((draft) => draft.id), doubts: [] };
      return write(opened, { drafts: own, taken: new Map([[command, taken]]) }, command);
    });
  };

  const exchangeNow = () => {
    ready
      .then((opened) => {
        const settle = unsettled === null ? Promise.resolve() : write(opened, unsettled, null);
        return settle.then(() => opened.talk.now());
      }, fail)
      .catch(() => undefined);
  };

  const carrying = startCarrying({
    campaign: id,
    ready: () => ready,
    files,
    campaignName: () => book.view().name,
    deviceName: options.deviceName,
    now: surroundings.now,
    onTaken() {
      surroundings.announce(id);
      void open?.talk.now();
    },
  });

  const originOf: BookHandle['originOf'] = async (entryId) => {
    const { replica } = await ready;
    const entry = replica.ledger.byId(entryId);
    if (entry === undefined) return null;
    return { device: entry.header.device, proof: await replica.proof(entry) };
  };

  /** What this device lacks, and whether what it writes here is signed. */
  const lacks = (): readonly TextKey[] => {
    const signs = open === null || open.replica.signs;
    return signs ? options.lacks() : [...options.lacks(), 'lacks.signing'];
  };

  const setMe = (person: string) => {
    me = person;
    keep(`me.${id}`, person);
    changed();
  };

  const snapshot = (): BookHandle => {
    if (handle !== null) return handle;
    const view = book.view();
    const circumstances = {
      saving,
      copies: open?.copies ?? 2,
      camp: open?.talk.state ?? 'unknown',
      lacks: lacks(),
      trouble,
      clockDrift,
      second,
    };
    handle = {
      campaign: open !== null && view.opened ? view : null,
      depths: solving.depths,
      solved: solving.solved,
      judge: solving.judge,
      movements: solving.movements,
      densities: solving.densities,
      watchDensity: solving.watchDensity,
      unsolved: solving.unsolved,
      solving: solving.isBusy,
      // Somebody who is not in the book can't have written it: a profile copied or emptied by hand.
      me: me !== null && view.people.some((person) => person.id === me) ? me : null,
      setMe,
      device: { id: open?.replica.device ?? '', name: options.deviceName() },
      safety: open === null ? nothingKnown(options.lacks(), trouble) : tally(open.replica, circumstances),
      loss: loss.current,
      seenLoss() {
        loss.seen();
        changed();
      },
      decide,
      entries,
      originOf,
      keepDrafts,
      keepFile: files.keep,
      readFile: files.read,
      exportFile: () => carrying.write(null),
      carrying,
      exchangeNow,
    };
    return handle;
  };

  return {
    id,
    snapshot,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    wake: () => void open?.talk.now(),
    refresh: changed,
    close() {
      isClosed = true;
      stopListening();
      open?.talk.close();
    },
  };
}
