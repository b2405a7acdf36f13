import { asksPin, type Book, type Command, createBook, type Decision, rightFor } from '@firnbook/campaign';
import {
  type Draft,
  type Entry,
  newId,
  openReplica,
  type Replica,
  type Store,
  type Verify,
} from '@firnbook/journal';
import { startCarrying } from '../carry/carrying.ts';
import { type RevokedOrigin, watchRevoked } from '../pair/revoked-origin.ts';
import { hasVerifier } from '../people/verifier.ts';
import { startWriter, type Writer } from '../people/writer.ts';
import type { Said } from '../texts/say-here.ts';
import type { TextKey } from '../texts/t.ts';
import type { BookHandle } from './book.ts';
import { startFiles } from './files.ts';
import { type Decided, startKeeping } from './keeping.ts';
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

interface Open {
  readonly replica: Replica;
  readonly notes: Pick<Store, 'note' | 'setNote'>;
  readonly verify: Verify | undefined;
  readonly copies: 1 | 2;
  readonly talk: Talk;
}

/** The tick on this tablet is drawn before the camp computer is asked: ms that this takes on a slow tablet. */
const afterTick = 200;

/** Steps that a form may put between the save and its next question. */
const stepsOfForms = 8;

export function openCampaignBook(id: string, options: BookOptions): CampaignBook {
  const { surroundings } = options;
  const book: Book = createBook();
  const solving: Solving = startSolving(surroundings.solver, () => changed());
  const listeners = new Set<() => void>();
  const loss = watchLoss(id);
  const second = startSecond(id, surroundings.camp, () => changed());
  const files = startFiles(id, surroundings.camp, surroundings.openFiles);
  let open: Open | null = null;
  let revokedBy: ((entry: Entry) => RevokedOrigin | null) | null = null;
  let trouble: Said | null = null;
  let clockDrift: number | null = null;
  let isClosed = false;
  let stopListening: () => void = () => undefined;
  let handle: BookHandle | null = null;
  /** Set while listeners are about to be told. */
  let telling: ReturnType<typeof setTimeout> | undefined;
  /** Set while others are about to be told. */
  let sending: ReturnType<typeof setTimeout> | undefined;

  const writer: Writer = startWriter(id, surroundings.now, () => changed());

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

  /**
   * Whoever waits for a save goes on with a screen that shows it, and listeners are told in the same turn of the page
   * but after that: the screen is drawn once for both.
   */
  const tellBehind = async () => {
    for (let steps = 0; steps < stepsOfForms; steps += 1) await null;
    if (telling !== undefined) tell();
  };

  const fail = (error: unknown) => {
    trouble = saidOf(error);
    changed();
  };

  const keeping = startKeeping({
    onSlow: () => changed(),
    onKept() {
      trouble = null;
      changed();
      sendSoon();
    },
    onFailed: fail,
  });

  /** What this device says for itself comes first, then what others are told of it. */
  const sendSoon = () => {
    if (sending !== undefined) return;
    sending = setTimeout(() => {
      sending = undefined;
      surroundings.announce(id);
      void open?.talk.now();
    }, afterTick);
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
        if (keeping.isSettled) trouble = null;
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

  /** Says once under which name this device writes, and again when the name or the device's id changes. */
  const naming = ({ replica }: Open, by: string, observedAt: string): readonly Draft[] => {
    const name = options.deviceName();
    const said = book.view().devices?.findLast((one) => one.readings.device?.text === replica.device);
    if (said?.readings.name?.text === name) return [];
    const command: Command = { do: 'log', kind: 'device', readings: { device: replica.device, name } };
    const decision = book.decide(command, { by, observedAt, newId: () => newId(surroundings) });
    return decision.ok ? decision.drafts : [];
  };

  const decideNow = (opened: Open, command: Command, observedAt: string): Decided => {
    const decision: Decision = book.decide(command, {
      by: writer.me ?? '',
      observedAt,
      newId: () => newId(surroundings),
      ...(isUnproven() && { unproven: true }),
    });
    if (!decision.ok) return { taken: decision, drafts: [] };
    const by = decision.drafts[0]?.by ?? writer.me ?? '';
    return {
      taken: { ok: true, entries: decision.drafts.map((draft) => draft.id), doubts: decision.doubts },
      // A person must be there before what they say: their entry goes first, the device's name after it.
      drafts: [...decision.drafts, ...naming(opened, by, observedAt)],
    };
  };

  /** A PIN is asked here, and whoever writes has not given theirs lately. */
  const isUnproven = (): boolean => writer.me !== null && writer.proof !== 'given' && asksPin(book.view());

  /** Whether there is anybody who could find a PIN right. */
  const canProve = (): boolean =>
    open?.talk.state === 'reachable' || (writer.me !== null && hasVerifier(id, writer.me));

  const decide: BookHandle['decide'] = async (command, observedAt) => {
    surroundings.guard.foresee();
    const opened = await ready;
    const at = observedAt ?? observedNow(new Date(surroundings.now()));
    // Before a plan or a sign-off alone, so never in the middle of what is being logged.
    if (isUnproven() && canProve() && rightFor(command, book.view()) !== 'log') await writer.wantPin();
    for (let failures = 1; ; failures += 1) {
      try {
        const taken = await keeping.keep(opened.replica, JSON.stringify(command), () =>
          decideNow(opened, command, at),
        );
        if (keeping.isSettled && trouble !== null) {
          trouble = null;
          changed();
        }
        void tellBehind();
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
    await keeping.settle(opened.replica);
    await opened.replica.refresh();
    return opened.replica.ledger.entries();
  };

  const keepDrafts: BookHandle['keepDrafts'] = async (drafts) => {
    const opened = await ready;
    const [first] = drafts;
    if (first === undefined) return;
    const command = drafts.map((draft) => draft.id).join(' ');
    await keeping.keep(opened.replica, command, () => ({
      taken: { ok: true, entries: drafts.map((draft) => draft.id), doubts: [] },
      drafts: [...drafts, ...naming(opened, first.by, first.observedAt)],
    }));
  };

  const exchangeNow = () => {
    ready
      .then(async (opened) => {
        await keeping.settle(opened.replica);
        await opened.talk.now();
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
    revokedBy ??= watchRevoked(id, replica.ledger);
    return {
      device: entry.header.device,
      proof: await replica.proof(entry),
      revoked: revokedBy(entry),
    };
  };

  /** What this device lacks, and whether what it writes here is signed. */
  const lacks = (): readonly TextKey[] => {
    const signs = open === null || open.replica.signs;
    return signs ? options.lacks() : [...options.lacks(), 'lacks.signing'];
  };

  const snapshot = (): BookHandle => {
    if (handle !== null) return handle;
    const view = book.view();
    const { me } = writer;
    const circumstances = {
      saving: keeping.saving,
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
      setMe: (person) => writer.take(person, false),
      writer: {
        before: view.people.some((person) => person.id === writer.before) ? writer.before : null,
        unproven: isUnproven() ? (writer.proof === 'over' ? 'over' : 'not given') : null,
        isPinWanted: writer.isPinWanted,
        proven: (person) => writer.take(person, true),
        handOver: writer.handOver,
        later: writer.later,
      },
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
      clearTimeout(sending);
      writer.close();
      stopListening();
      open?.talk.close();
    },
  };
}
