import { type Command, createBook } from '@firnbook/campaign';
import { newId } from '@firnbook/journal';
import {
  askPersistence,
  type HeldCampaign,
  heldCampaigns,
  holdCampaign,
  type Persistence,
} from '@firnbook/storage/browser';
import { startBringIn } from '../carry/bring-in.ts';
import { deviceList } from '../pair/device-list.ts';
import { startOwnKey } from '../pair/own-key.ts';
import { ownStanding } from '../pair/standing.ts';
import type { Updates } from '../sw/register.ts';
import type { Said } from '../texts/say-here.ts';
import { t } from '../texts/t.ts';
import type {
  BookHandle,
  CampaignsHandle,
  CampState,
  DeviceHandle,
  KnownCampaign,
  StorageState,
} from './book.ts';
import type { CampCampaign } from './camp.ts';
import { type CampaignBook, openCampaignBook } from './campaign-book.ts';
import { keep, recall } from './kept.ts';
import { lacksOf } from './lacks.ts';
import { wasHeld } from './loss.ts';
import { observedNow } from './observed.ts';
import { nextTalk } from './pace.ts';
import { batteryHere, startPresence } from './presence.ts';
import type { Surroundings } from './surroundings.ts';
import { noteUnsent, unsentAnywhere } from './unsent.ts';

/** Everything this device holds: its books, its list of campaigns, itself. */
export interface Shelf {
  /** Opens a campaign's book, once; the same one afterwards. */
  book(id: string): CampaignBook;
  campaigns(): CampaignsHandle;
  device(): DeviceHandle;
  /** Told when `campaigns` or `device` change. */
  subscribe(listener: () => void): () => void;
  /** The page was looked at again, or the network came back. */
  wake(): void;
}

export function createShelf(surroundings: Surroundings, updates: Updates): Shelf {
  const books = new Map<string, CampaignBook>();
  /** Opened here and now: nobody else can know them yet. */
  const fresh = new Set<string>();
  const listeners = new Set<() => void>();
  const tellKey = startOwnKey(surroundings.signing);
  let held: readonly HeldCampaign[] | null = null;
  let atCamp: readonly CampCampaign[] = [];
  let camp: CampState = 'unknown';
  let persistence: Persistence | null = null;
  let failures = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let campaignsHandle: CampaignsHandle | null = null;
  let deviceHandle: DeviceHandle | null = null;
  let name = recall('device.name') ?? makeName();

  function makeName(): string {
    const bytes = [...surroundings.randomBytes(2)].map((byte) => byte.toString(16).padStart(2, '0'));
    const made = t('device.unnamed', { sign: bytes.join('').toUpperCase() });
    keep('device.name', made);
    return made;
  }

  const changed = () => {
    deviceHandle = null;
    listChanged();
  };

  /** The list alone: nobody but its own screen is drawn anew. */
  const listChanged = () => {
    campaignsHandle = null;
    for (const listener of listeners) listener();
  };

  const lacks = () =>
    lacksOf({
      isSecure: globalThis.isSecureContext ?? false,
      persistence,
      offlineStart: updates.offlineStart,
      hasLocks: 'locks' in navigator,
    });

  const storage = (): StorageState => {
    const { room, ballast, triedAt } = surroundings.guard;
    return { persistence, room, ballast, triedAt, address: globalThis.location?.origin ?? '' };
  };

  const readHeld = async () => {
    held = await heldCampaigns();
    changed();
    return held;
  };

  const askCamp = async () => {
    clearTimeout(timer);
    try {
      atCamp = await surroundings.camp.campaigns();
      camp = 'reachable';
      failures = 0;
      void tellKey();
      void deviceList.ask();
    } catch {
      camp = 'unreachable';
      failures += 1;
    }
    changed();
    const wait = nextTalk({ failures, unsent: 0, visible: surroundings.isVisible() });
    // Books keep their own exchange going; the list alone is asked for while nothing is open.
    if (wait !== null && books.size === 0) timer = setTimeout(() => void askCamp(), wait);
  };

  void readHeld().catch(() => {
    held = [];
    changed();
  });
  void askCamp();
  void askPersistence().then((answer) => {
    persistence = answer;
    changed();
    for (const book of books.values()) book.refresh();
  });
  updates.subscribe(changed);
  surroundings.guard.subscribe(changed);

  /** A mistyped address must not make a journal, here or on the camp computer. */
  const mayOpen = async (id: string, tell: (what: Said) => void): Promise<boolean> => {
    if (fresh.has(id)) return false;
    for (let tries = 1; ; tries += 1) {
      if ((await heldCampaigns()).some((one) => one.id === id)) return true;
      await askCamp();
      const found = atCamp.find((one) => one.id === id);
      if (found !== undefined) {
        await hold(id, found.name, found.invented);
        return true;
      }
      const away = wasHeld(id) ? 'trouble.lost.away' : 'trouble.camp.away';
      tell({ key: camp === 'reachable' ? 'trouble.nowhere' : away, values: {} });
      const wait = nextTalk({ failures: tries, unsent: 1, visible: true })!;
      await new Promise((resolve) => setTimeout(resolve, wait));
    }
  };

  const hold = async (id: string, title: string, invented: boolean) => {
    await holdCampaign({ id, name: title, invented, openedAt: new Date(surroundings.now()).toISOString() });
    await readHeld();
  };

  const onListed = ({ campaign }: BookHandle) => {
    if (campaign === null) return;
    const line = held?.find((one) => one.id === campaign.id);
    if (line?.name === campaign.name && line.invented === campaign.invented) listChanged();
    else void hold(campaign.id, campaign.name, campaign.invented).catch(() => undefined);
  };

  const book = (id: string): CampaignBook => {
    let opened = books.get(id);
    if (opened === undefined) {
      opened = openCampaignBook(id, { surroundings, mayOpen, onListed, deviceName: () => name, lacks });
      const tell = startPresence({
        campaign: id,
        spoken: opened.snapshot,
        storage,
        now: surroundings.now,
        battery: batteryHere,
        ask: ownStanding.ask,
      });
      // Whether an update may be taken depends on what is unsent.
      opened.subscribe(() => {
        void tell();
        noteUnsent(id, opened!.snapshot().safety);
        if (updates.isReady()) changed();
      });
      books.set(id, opened);
    }
    return opened;
  };

  const open: CampaignsHandle['open'] = async (command: Extract<Command, { do: 'open campaign' }>) => {
    const context = {
      by: '',
      observedAt: observedNow(new Date(surroundings.now())),
      newId: () => newId(surroundings),
    };
    // Decided once on an empty book to learn of refusals before anything is made.
    const trial = createBook().decide(command, context);
    if (!trial.ok) return trial;
    const id = newId(surroundings);
    const title = command.readings.name?.trim() ?? '';
    await hold(id, title, command.readings.invented === 'yes');
    fresh.add(id);
    const made = book(id);
    const taken = await made.snapshot().decide(command, context.observedAt);
    if (!taken.ok) return taken;
    const first = taken.entries[1];
    if (first !== undefined) made.snapshot().setMe(first);
    return { ok: true, campaign: id };
  };

  const lostOnes: CampaignsHandle['lostOnes'] = async () => {
    const sticks = (await surroundings.camp.sticks()).filter((stick) => stick.isIn);
    const lists = sticks.map(async (stick) =>
      (await surroundings.camp.onStick(stick.id))
        .filter(({ isHere }) => !isHere)
        .map((campaign) => ({ stick, campaign })),
    );
    return (await Promise.all(lists)).flat();
  };

  const recover: CampaignsHandle['recover'] = async (stick, campaign, generation) => {
    await surroundings.camp.recover(stick, campaign, generation);
    await askCamp();
  };

  const bringIn = startBringIn({
    held: async () => (await heldCampaigns()).map((one) => one.id),
    carrying: (id) => book(id).snapshot().carrying,
    verify: async () => (await surroundings.signing()).verify,
    begin: async (id, title) => {
      await hold(id, title, false);
      // What comes by file may be on no camp computer that can be asked for it.
      fresh.add(id);
    },
  });

  const known = (): readonly KnownCampaign[] => {
    const lines = new Map<string, KnownCampaign>();
    for (const { id, name: title, invented, entries } of atCamp) {
      lines.set(id, { id, name: title, invented, entries, onTablet: false, onCamp: true });
    }
    for (const { id, name: title, invented } of held ?? []) {
      const there = lines.get(id);
      const here = books.get(id)?.snapshot().safety.total ?? 0;
      lines.set(id, {
        id,
        name: title,
        invented,
        entries: Math.max(here, there?.entries ?? 0),
        onTablet: true,
        onCamp: there !== undefined,
      });
    }
    return [...lines.values()].sort((a, b) => a.name.localeCompare(b.name) || (a.id < b.id ? -1 : 1));
  };

  const waitsFor = (): Said | null => {
    const unsent = unsentAnywhere(new Map([...books].map(([id, one]) => [id, one.snapshot().safety])));
    if (unsent === 0) return null;
    return { key: 'update.waits', values: { count: unsent } };
  };

  return {
    book,
    campaigns() {
      campaignsHandle ??= { loading: held === null, known: known(), camp, lostOnes, recover, bringIn, open };
      return campaignsHandle;
    },
    device() {
      deviceHandle ??= {
        name,
        setName(next) {
          name = next;
          keep('device.name', next);
          changed();
          for (const one of books.values()) one.refresh();
        },
        storage: storage(),
        lacks: lacks(),
        madeRoom: () => void surroundings.guard.lay().then(changed),
        sticks: surroundings.camp.sticks,
        updateReady: updates.isReady(),
        updateWaitsFor: updates.isReady() ? waitsFor() : null,
        takeUpdate() {
          if (waitsFor() === null) updates.take();
        },
      };
      return deviceHandle;
    },
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    wake() {
      void askCamp();
      for (const one of books.values()) one.wake();
    },
  };
}
