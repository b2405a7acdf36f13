import { type Book, type Command, createBook, type Decision } from '@firnbook/campaign';
import { type Draft, newId, openReplica, type Replica } from '@firnbook/journal';
import type { Said } from '../texts/say-here.ts';
import type { TextKey } from '../texts/t.ts';
import type { BookHandle, Taken } from './book.ts';
import { startFiles } from './files.ts';
import { keep, recall } from './kept.ts';
import { watchLoss } from './loss.ts';
import { observedNow } from './observed.ts';
import { type Solving, startSolving } from './solving.ts';
import type { Surroundings } from './surroundings.ts';
import { startTalk, type Talk } from './talk.ts';
import { nothingKnown, tally } from './tally.ts';

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

/** A write that failed: whether it was kept is unknown, so the same entries are offered until one write succeeds. */
interface Unsettled {
  readonly command: string;
  readonly drafts: readonly Draft[];
  readonly taken: Taken;
}

interface Open {
  readonly replica: Replica;
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
  const files = startFiles(id, surroundings.camp, surroundings.openFiles);
  let open: Open | null = null;
  let me = recall(`me.${id}`);
  let saving = 0;
  let unsettled: Unsettled | null = null;
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
    const what = error instanceof Error ? error.message : String(error);
    trouble = { key: 'trouble.store', values: { what } };
    changed();
  };

  const start = async (): Promise<Open> => {
    const isKnown = await options.mayOpen(id, (what) => {
      trouble = what;
      changed();
    });
    trouble = null;
    const store = await surroundings.openStore(id);
    const replica = await openReplica(store, {
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
        if (heard.added.length > 0) surroundings.announce(id);
        void files.send();
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
    open = { replica, copies: store.copies, talk };
    changed();
    if (isKnown) void talk.now();
    return open;
  };
  const ready = start();
  ready.catch(fail);

  const write = async ({ replica, talk }: Open, wanted: Unsettled): Promise<void> => {
    // What failed before goes first and as it was: the same ids can't be doubled.
    const drafts =
      unsettled === null || unsettled === wanted ? wanted.drafts : [...unsettled.drafts, ...wanted.drafts];
    saving = drafts.length;
    const slow = setTimeout(changed, noticed);
    try {
      await replica.write(drafts);
    } catch (error) {
      unsettled = { ...wanted, drafts };
      fail(error);
      throw error;
    } finally {
      clearTimeout(slow);
    }
    saving = 0;
    unsettled = null;
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
    if (unsettled !== null && unsettled.command === text) {
      const { taken } = unsettled;
      await write(opened, unsettled);
      return taken;
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
    await write(opened, { command: text, drafts, taken });
    return taken;
  };

  const decide: BookHandle['decide'] = async (command, observedAt) => {
    const opened = await ready;
    const at = observedAt ?? observedNow(new Date(surroundings.now()));
    // One tab decides at a time, so that two can't both find the number 34 free.
    return surroundings.exclusive(`decide-${id}`, () => take(opened, command, at));
  };

  const entries: BookHandle['entries'] = async () => {
    const opened = await ready;
    if (unsettled !== null) await write(opened, unsettled);
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
      if (unsettled !== null && unsettled.command === command) return write(opened, unsettled);
      const own = [...drafts, ...naming(opened, first.by, first.observedAt)];
      const taken: Taken = { ok: true, entries: drafts.map((draft) => draft.id), doubts: [] };
      return write(opened, { command, drafts: own, taken });
    });
  };

  const exchangeNow = () => {
    ready
      .then((opened) => {
        const settle = unsettled === null ? Promise.resolve() : write(opened, unsettled);
        return settle.then(() => opened.talk.now());
      }, fail)
      .catch(() => undefined);
  };

  const exportFile = async (): Promise<Blob> => {
    const { replica } = await ready;
    const lines = replica.ledger.entries().map((entry) => `${JSON.stringify(entry.sealed)}\n`);
    return new Blob(lines, { type: 'application/jsonl' });
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
      lacks: options.lacks(),
      trouble,
      clockDrift,
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
      keepDrafts,
      keepFile: files.keep,
      readFile: files.read,
      exportFile,
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
