import { isTrouble } from '@firnbook/storage/sqlite';
import type { Complaint } from '../answers.ts';
import type { Campaigns } from '../campaigns.ts';
import { lacksNetwork, networkCopiedAt } from '../network/index.ts';
import { backUpApart, backUpNetworkApart } from './back-up-apart.ts';
import { knownSticks, noteBackup, type VerifiedBackup, verifiedBackups } from './known.ts';
import { findSticks } from './places.ts';

/** What the screens say of a stick. */
interface StickState {
  readonly id: string;
  readonly name: string;
  readonly isIn: boolean;
  /** ISO 8601, UTC; null before the first one. */
  readonly lastBackup: string | null;
  /** Bytes that were written and came back when it was named; null where it was not tested. */
  readonly testedBytes: number | null;
  /** Whether keys, list of devices and PINs of the camp network go to it. */
  readonly carriesNetwork: boolean;
  /** When they were last copied and read back, as the stick said while it was in; null where that is not known. */
  readonly networkCopied: string | null;
  readonly trouble: Complaint | null;
}

export interface Sticks {
  states(): readonly StickState[];
  /** The newest verified backup of a campaign on each stick. */
  backups(campaign: string): readonly VerifiedBackup[];
  /** Looks which sticks are in and backs up what they lack. One look at a time; a second one joins the first. */
  look(): Promise<void>;
  /** Resolves when no backup is under way. */
  stop(): Promise<void>;
}

/** How often the places are looked at. */
const lookEvery = 30_000;
/** A stick that stays in gets a new generation no more often than this. */
const spacing = 5 * 60_000;

/** Watches for the sticks that people named, and keeps a verified copy of every campaign on each that is in. */
export function watchSticks(
  dataFolder: string,
  campaigns: Campaigns,
  log: (line: string) => void,
  now: () => number = Date.now,
): Sticks {
  const troubles = new Map<string, Complaint>();
  const networkCopied = new Map<string, string | null>();
  const networkTriedAt = new Map<string, number>();
  let isIn: ReadonlyMap<string, string> = new Map();
  let looking: Promise<void> | null = null;
  let isStopped = false;

  async function lookOnce(): Promise<void> {
    const before = isIn;
    const known = knownSticks(dataFolder);
    isIn = findSticks(known);
    for (const { id, name, withoutNetwork } of known) {
      const place = isIn.get(id);
      if (place === undefined) continue;
      if (withoutNetwork !== true) await copyNetwork(id, name, place, !before.has(id));
      networkCopied.set(id, networkCopiedAt(place));
      for (const campaign of campaigns.open.keys())
        if (!isStopped && isDue(id, campaign, !before.has(id))) await copy(id, name, campaign, place);
    }
  }

  function isDue(stick: string, campaign: string, isNew: boolean): boolean {
    const size = campaigns.open.get(campaign)?.replica.ledger.size ?? 0;
    const last = verifiedBackups(dataFolder).find((one) => one.stick === stick && one.campaign === campaign);
    if (last === undefined) return size > 0;
    // A journal only grows: as many entries are the same entries.
    return size !== last.entries && (isNew || now() - Date.parse(last.madeAt) >= spacing);
  }

  async function copyNetwork(stick: string, name: string, place: string, isNew: boolean): Promise<void> {
    const isEarly = now() - (networkTriedAt.get(stick) ?? Number.NEGATIVE_INFINITY) < spacing;
    if (isStopped || (isEarly && !isNew) || !lacksNetwork(dataFolder, place)) return;
    networkTriedAt.set(stick, now());
    try {
      await backUpNetworkApart(dataFolder, place);
      troubles.delete(stick);
      log(`Stick ${name}: the camp network, read back.`);
    } catch (error) {
      fail(stick, name, error);
    }
  }

  function fail(stick: string, name: string, error: unknown): void {
    const trouble = isTrouble(error)
      ? { what: error.what, where: `stick ${name}`, mend: error.mend }
      : {
          what: 'The backup failed',
          where: `stick ${name}`,
          mend: 'Take it out and put it in again, or take another stick.',
        };
    if (troubles.get(stick)?.what !== trouble.what) log(`Stick ${name}: ${String(error)}`);
    troubles.set(stick, trouble);
  }

  async function copy(stick: string, name: string, campaign: string, place: string): Promise<void> {
    try {
      const backup = await backUpApart({ dataFolder, campaign, target: place });
      const { generation, madeAt, entries, digest, heads = {}, isPastCache = false } = backup;
      noteBackup(dataFolder, {
        stick,
        campaign,
        generation,
        madeAt,
        entries,
        digest,
        heads,
        isPastCache,
      });
      troubles.delete(stick);
      log(`Stick ${name}: ${entries} entries of ${campaign}, read back, generation ${generation}.`);
    } catch (error) {
      fail(stick, name, error);
    }
  }

  const look = (): Promise<void> => {
    looking ??= lookOnce().finally(() => {
      looking = null;
    });
    return looking;
  };
  const timer = setInterval(() => void look(), lookEvery);
  timer.unref();

  return {
    look,
    states: () => {
      const done = verifiedBackups(dataFolder);
      return knownSticks(dataFolder).map(({ id, name, tested, withoutNetwork }) => ({
        id,
        name,
        isIn: isIn.has(id),
        lastBackup:
          done
            .filter(({ stick }) => stick === id)
            .map(({ madeAt }) => madeAt)
            .sort()
            .at(-1) ?? null,
        testedBytes: tested?.bytes ?? null,
        carriesNetwork: withoutNetwork !== true,
        networkCopied: networkCopied.get(id) ?? null,
        trouble: troubles.get(id) ?? null,
      }));
    },
    backups: (campaign) => verifiedBackups(dataFolder).filter((one) => one.campaign === campaign),
    async stop() {
      isStopped = true;
      clearInterval(timer);
      await looking;
    },
  };
}
