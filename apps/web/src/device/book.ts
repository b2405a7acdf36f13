import type { CampaignView, Command, DensityView, DepthView, Doubt, Refusal } from '@firnbook/campaign';
import type { Draft, Entry, Proof } from '@firnbook/journal';
import type { DepthDifference, Solved, Verdict } from '@firnbook/science/depth-scales';
import type { Persistence, Room } from '@firnbook/storage/browser';
import type { BringIn } from '../carry/bring-in.ts';
import type { Carrying } from '../carry/carrying.ts';
import type { RevokedOrigin } from '../pair/revoked-origin.ts';
import type { Said } from '../texts/say-here.ts';
import type { TextKey } from '../texts/t.ts';
import type { CampStick, StickCampaign } from './camp.ts';
import type { Loss } from './loss.ts';
import type { SolvedHole } from './solving.ts';

/**
 * What the screens may know of this device and its book. Shapes only: the hooks that hand these out stand in
 * hooks.ts (useBook, useCampaigns, useDevice) and draft.ts (useDraft); the provider is provider.tsx.
 */

/**
 * Where one entry is known to rest: nowhere durable yet; on this tablet in one copy, which a crash of the browser can
 * take; on this tablet in two; also on the camp computer; or also on a second medium.
 */
export type Rest = 'saving' | 'once' | 'tablet' | 'camp' | 'second';

export type CampState = 'reachable' | 'unreachable' | 'unknown';

/** How safe this campaign's record is, counted in entries. */
export interface Safety {
  readonly total: number;
  /** Kept on this tablet: strict commit, read back, and flushed to the second copy where there is one. */
  readonly onTablet: number;
  /** Copies that this tablet keeps of each entry. One is not called safe. */
  readonly copies: 1 | 2;
  /** Confirmed by the camp computer in its present life (rule I9). */
  readonly onCamp: number;
  readonly onlyHere: number;
  /** ISO 8601 (UTC): when the oldest entry that exists only here was made. */
  readonly oldestOnlyHere: string | null;
  /** ISO 8601 (UTC): when the camp computer last answered an exchange of this campaign. */
  readonly campSeen: string | null;
  readonly camp: CampState;
  /** Sticks that the camp computer wrote to and read back; null where it has told of none. */
  readonly second: {
    /** Entries that rest on one of them. */
    readonly entries: number;
    /** ISO 8601 (UTC): when the newest backup was made. */
    readonly at: string;
    readonly names: readonly string[];
  } | null;
  /** What this browser or address lacks for a safe record; empty when nothing. */
  readonly lacks: readonly TextKey[];
  /** The tablet's store has stopped taking entries, and why; null while all is well. */
  readonly trouble: Said | null;
  /** Devices of which two copies write at once. */
  readonly cloned: readonly string[];
  of(entryId: string): Rest;
  /** Milliseconds by which this device's clock is ahead of the camp computer's; null before they spoke. */
  readonly clockDrift: number | null;
}

/** Which device made an entry, and what its signature is worth. */
export interface Origin {
  readonly device: string;
  readonly proof: Proof;
  /** Where the device is revoked: when, and how the entry stands to that. */
  readonly revoked: RevokedOrigin | null;
}

export type Taken =
  | { readonly ok: true; readonly entries: readonly string[]; readonly doubts: readonly Doubt[] }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };

/** In whose hands this device is. */
interface WriterHandle {
  /** The last other person who wrote here within a day. */
  readonly before: string | null;
  /**
   * Whoever writes has a PIN to give here and has not since they took the device over, or not within a shift; null
   * where they have, or none is asked. They go on logging.
   */
  readonly unproven: 'not given' | 'over' | null;
  /** A plan or a sign-off waits for the PIN of whoever writes. */
  readonly isPinWanted: boolean;
  /** This person gave their PIN and writes from now on. */
  proven(person: string): void;
  /** Nobody writes until somebody picks initials; what is half filled in stays. */
  handOver(): void;
  /** What waits for the PIN is told that it is not given now. */
  later(): void;
}

/** One campaign's book on this device. */
export interface BookHandle {
  /** Null while it is read from the store, or where it isn't on this device yet. */
  readonly campaign: CampaignView | null;
  /** Solved depths by the hole's id; a hole that is being solved for the first time is absent. */
  readonly depths: Readonly<Record<string, DepthView>>;
  /** The solutions themselves with the readings they are made of: for scales, versions and verdicts. */
  readonly solved: Readonly<Record<string, SolvedHole>>;
  /** The verdict after a hole's last run, by its id; null where there is none. An overtaken question is never answered. */
  judge(hole: string): Promise<Verdict | null>;
  /** What moved in a hole since another state of its depths, and why; null where it is not solved. */
  movements(hole: string, before: Solved): Promise<DepthDifference | null>;
  /** Density by the hole's id, of holes that are watched; one that is being computed for the first time is absent. */
  readonly densities: Readonly<Record<string, DensityView>>;
  /** Keep a hole's density up, until what is returned is called (see useDensities). */
  watchDensity(hole: string): () => void;
  /** What kept a hole from being solved, in words, by the hole's id. */
  readonly unsolved: Readonly<Record<string, string>>;
  readonly solving: boolean;
  /** Id of the person who writes on this device; remembered here. */
  readonly me: string | null;
  setMe(person: string): void;
  readonly writer: WriterHandle;
  readonly device: { readonly id: string; readonly name: string };
  readonly safety: Safety;
  /** What this browser dropped of the record; null where nothing, or a person has read it. */
  readonly loss: Loss | null;
  seenLoss(): void;
  /**
   * Decide and keep. Resolves when the entries are on this tablet (see Safety.onTablet) or refused.
   * `observedAt` (ISO 8601 with offset) is when it was seen; now, where not given. Rejects when the store fails:
   * then nothing may be shown as saved.
   */
  decide(command: Command, observedAt?: string): Promise<Taken>;
  /** Every entry as it is now; what failed to be kept before is offered once more first. */
  entries(): Promise<readonly Entry[]>;
  /** Checked now; null where this device does not have the entry. The same function for a book's whole life. */
  originOf(entryId: string): Promise<Origin | null>;
  /** Keeps what was decided on this device from `entries`, all of it or none; the same drafts again change nothing. */
  keepDrafts(drafts: readonly Draft[]): Promise<void>;
  /** Keeps a file (a photograph, a table) on this device and brings it to the camp computer; resolves with its SHA-256. */
  keepFile(file: Blob): Promise<string>;
  /** A photograph by its SHA-256, from this device or the camp computer; null where neither has it. */
  readFile(sha256: string): Promise<Blob | null>;
  /** Every entry and picture of this campaign that is on this device, as a file that another device brings in. */
  exportFile(): Promise<File>;
  /** The same for one device alone, and what came from others this way. */
  readonly carrying: Carrying;
  /** Talk with the camp computer now (a person pressed "try again"). */
  exchangeNow(): void;
}

export interface KnownCampaign {
  readonly id: string;
  readonly name: string;
  readonly invented: boolean;
  readonly entries: number;
  readonly onTablet: boolean;
  readonly onCamp: boolean;
}

export interface CampaignsHandle {
  /** True until this device's own list was read; the camp's may still come. */
  readonly loading: boolean;
  /** On this device or on the camp computer, by name. Visiting /c/<id> fetches what isn't here yet. */
  readonly known: readonly KnownCampaign[];
  readonly camp: CampState;
  /** Campaigns on sticks in the camp computer that are not on it: what can be brought back. Rejects without an answer. */
  lostOnes(): Promise<readonly { readonly stick: CampStick; readonly campaign: StickCampaign }[]>;
  /** Bring one back onto the camp computer. Rejects with words where it can't be. */
  recover(stick: string, campaign: string, generation: number): Promise<void>;
  /** Files that other devices wrote. */
  readonly bringIn: BringIn;
  /** Start a new campaign on this device; works without the camp computer. */
  open(
    command: Extract<Command, { do: 'open campaign' }>,
  ): Promise<
    | { readonly ok: true; readonly campaign: string }
    | { readonly ok: false; readonly refusals: readonly Refusal[] }
  >;
}

/** How well this browser keeps what is written, by what it promised and by our own measure. */
export interface StorageState {
  /** Null until the browser answered. */
  readonly persistence: Persistence | null;
  readonly room: Room;
  /** Bytes set aside. */
  readonly ballast: number;
  /** When room was last tried, ms since 1970; null before. */
  readonly triedAt: number | null;
  /** Under which the record is kept: a browser keeps one per address. */
  readonly address: string;
}

/** The device itself, across campaigns. */
export interface DeviceHandle {
  readonly name: string;
  setName(name: string): void;
  readonly storage: StorageState;
  /** What this browser or address lacks for a safe record; empty when nothing. */
  readonly lacks: readonly TextKey[];
  /** A person has made room: the ballast is laid again. */
  madeRoom(): void;
  /** Sticks that the camp computer knows. Rejects without an answer. */
  sticks(): Promise<readonly CampStick[]>;
  /** A newer version of these screens waits on this device. */
  readonly updateReady: boolean;
  /** Null when the update may be taken now; otherwise why not yet. */
  readonly updateWaitsFor: Said | null;
  /** A person asks for the new version: the page reloads into it. Does nothing while it has to wait. */
  takeUpdate(): void;
}
