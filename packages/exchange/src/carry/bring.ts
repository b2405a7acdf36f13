import {
  accept,
  admit,
  claimOf,
  type Entry,
  type Have,
  type Ledger,
  NOT_ITS_KEY,
  open,
  type Sealed,
  type Verify,
} from '@firnbook/journal';
import type { CarryFirst, Piece } from './format.ts';
import { type EndRule, readCarryLines, type Torn } from './read.ts';
import { type RunningHash, runningHash } from './running-hash.ts';
import type { CarryProblem } from './words.ts';

/** Lines that were passed over: how many, and the first of them with reasons. */
export interface Passed {
  readonly count: number;
  readonly shown: readonly { readonly line: number; readonly problem: CarryProblem }[];
}

/** What a file would bring, found out without changing anything. */
export interface CarryPreview {
  readonly first: CarryFirst;
  /** Entries that are not here yet, and that are. */
  readonly fresh: number;
  readonly held: number;
  readonly attachments: { readonly fresh: number; readonly held: number };
  readonly refused: Passed;
  readonly torn: Torn | null;
  /** Hashes of entries that are left lying, as what they correct would be missing. */
  readonly left: ReadonlySet<string>;
}

export interface CarryTaken {
  readonly added: number;
  readonly attachments: number;
  readonly refused: Passed;
  readonly torn: Torn | null;
}

/** What a preview compares a file with. */
export interface CarryLook {
  readonly ledger: Pick<Ledger, 'get' | 'byId' | 'chain'>;
  readonly hasAttachment: (sha256: string) => Promise<boolean>;
  /** Left out where this platform can't check signatures. */
  readonly verify?: Verify | undefined;
  /** Only for tests. */
  readonly isEnd?: EndRule | undefined;
}

/** Where a file is brought in. */
export interface CarryTarget {
  readonly take: (
    offered: readonly Sealed[],
  ) => Promise<{ readonly added: readonly unknown[]; readonly refused: readonly { problem: string }[] }>;
  readonly hasAttachment: (sha256: string) => Promise<boolean>;
  /** Resolves when the attachment is durable. */
  readonly keepAttachment: (sha256: string, bytes: Uint8Array<ArrayBuffer>) => Promise<void>;
  readonly onProgress?: (entries: number) => void;
}

const SHOWN = 100;

const passedOver = () => {
  const shown: { line: number; problem: CarryProblem }[] = [];
  let count = 0;
  return {
    add(line: number, problem: CarryProblem) {
      count += 1;
      if (shown.length < SHOWN) shown.push({ line, problem });
    },
    get all(): Passed {
      return { count, shown };
    },
  };
};

/**
 * Reads all of a file and says what it would bring to a journal.
 *
 * A correction is never taken without its target. An honest writer sees to that by the order of the lines, and by
 * what it knew the receiver to hold. Where either can't be relied on (a line is damaged; or the file was chosen for a
 * copy that held more than this one, as before a restored backup), a correction whose target is nowhere is left lying,
 * and so is what follows it in its chain.
 *
 * @throws CarryFileError where it is no such file
 */
export const previewCarry = async (
  chunks: AsyncIterable<Uint8Array>,
  { ledger, hasAttachment, verify, isEnd }: CarryLook,
): Promise<CarryPreview> => {
  const refused = passedOver();
  const attachments = { fresh: 0, held: 0 };
  let first: CarryFirst | null = null;
  const puzzle = createPuzzle(
    async (sha256) => {
      if (await hasAttachment(sha256)) attachments.held += 1;
      else attachments.fresh += 1;
    },
    refused.add,
    false,
  );
  const entries = lookAtEntries(ledger, verify);
  const lines = readCarryLines(chunks, isEnd);
  let next = await lines.next();
  for (; next.done !== true; next = await lines.next()) {
    const read = next.value;
    if (read.is === 'first') first = read.first;
    else if (read.is === 'bad') refused.add(read.line, read.problem);
    else if (read.is === 'piece') await puzzle.add(read.line, read.piece);
    else {
      const what = await entries.see(read.line, read.sealed, first!.campaign);
      if (what !== null) refused.add(read.line, { key: 'entry', values: { what } });
    }
  }
  const torn = next.value;
  puzzle.end();
  const isSure = torn === null && refused.all.count === 0 && holdsAll(ledger, first!.for?.have ?? {});
  const left = isSure ? new Map<string, number>() : entries.unanchored;
  for (const line of left.values()) refused.add(line, { key: 'target', values: {} });
  return {
    first: first!,
    fresh: entries.fresh - left.size,
    held: entries.held,
    attachments,
    refused: refused.all,
    torn,
    left: new Set(left.keys()),
  };
};

/** Looks at one entry after the other as an exchange would that took each of them. */
const lookAtEntries = (ledger: CarryLook['ledger'], verify: Verify | undefined) => {
  const seen = new Map<string, Entry>();
  /** By hash, with their lines: corrections whose target is nowhere, and what follows them. */
  const unanchored = new Map<string, number>();
  const ids = new Set<string>();
  const keys = new Map<string, string | null>();
  let held = 0;
  const find = (hash: string) => seen.get(hash) ?? ledger.get(hash);

  /** The key that a chain has stated up to this entry; whoever stated another one was refused. */
  const keyUpTo = (hash: string | null): string | null => {
    if (hash === null) return null;
    let key: string | null | undefined;
    // The walk ends where one before it ended: a chain is asked about from one end to the other.
    for (let at = find(hash); at !== undefined; at = find(at.header.previous ?? '')) {
      key = at.header.key ?? keys.get(at.hash);
      if (key !== undefined) break;
    }
    keys.set(hash, key ?? null);
    return key ?? null;
  };

  /** What is wrong with its signature; null where nothing, or where this platform can't tell. */
  const signatureProblem = async (entry: Entry): Promise<string | null> => {
    const claim = claimOf(entry, keyUpTo(entry.header.previous));
    if (claim.is === 'wrong') return claim.problem;
    if (claim.is !== 'to be checked' || verify === undefined) return null;
    return (await verify(claim.key, claim.signature, entry.sealed.head)) ? null : NOT_ITS_KEY;
  };

  return {
    unanchored,
    get fresh() {
      return seen.size;
    },
    get held() {
      return held;
    },
    /** @returns why it is refused; null where it is not */
    async see(line: number, sealed: Sealed, campaign: string): Promise<string | null> {
      const { entries, refused } = accept(find, campaign, [sealed], { open, admit });
      const [entry] = entries;
      if (refused[0] !== undefined) return refused[0].problem;
      if (entry === undefined) {
        held += 1;
        return null;
      }
      const wrong = await signatureProblem(entry);
      if (wrong !== null) return wrong;
      const { id, previous, corrects } = entry.header;
      seen.set(entry.hash, entry);
      const isOpen = (target: string) => ledger.byId(target) === undefined && !ids.has(target);
      if ((previous !== null && unanchored.has(previous)) || (corrects ?? []).some(isOpen))
        unanchored.set(entry.hash, line);
      else ids.add(id);
      return null;
    },
  };
};

/** Whether a journal holds these heads and so everything before them. */
const holdsAll = (ledger: Pick<Ledger, 'chain'>, have: Have): boolean =>
  Object.entries(have).every(([device, heads]) =>
    heads.every(
      ({ sequence, hash }) =>
        ledger.chain(device)?.levels[sequence - 1]?.some((entry) => entry.hash === hash) ?? false,
    ),
  );

/** Entries in one call: what an exchange brings at once. */
const BATCH = 500;
const BATCH_CHARACTERS = 1_000_000;

/**
 * Takes what the preview promised. Each batch is durable before the next is read, so a stick that is pulled out, or a
 * full disk, leaves what was taken; bringing the file again goes on from there.
 */
export const takeCarry = async (
  chunks: AsyncIterable<Uint8Array>,
  preview: CarryPreview,
  target: CarryTarget,
): Promise<CarryTaken> => {
  const refused = passedOver();
  const puzzle = createPuzzle(
    async (sha256, bytes) => {
      if (await target.hasAttachment(sha256)) return;
      await target.keepAttachment(sha256, bytes);
      attachments += 1;
    },
    refused.add,
    true,
  );
  let attachments = 0;
  let added = 0;
  let batch: Sealed[] = [];
  let characters = 0;
  let line = 0;
  const flush = async () => {
    if (batch.length === 0) return;
    const taken = await target.take(batch);
    added += taken.added.length;
    for (const { problem } of taken.refused) refused.add(line, { key: 'entry', values: { what: problem } });
    target.onProgress?.(added);
    batch = [];
    characters = 0;
  };

  const lines = readCarryLines(chunks);
  let next = await lines.next();
  for (; next.done !== true; next = await lines.next()) {
    const read = next.value;
    if (read.is === 'first') continue;
    line = read.line;
    if (read.is === 'bad') refused.add(line, read.problem);
    else if (read.is === 'piece') {
      // Entries first: a photograph is nothing without the entry that names it.
      await flush();
      await puzzle.add(line, read.piece);
    } else if (preview.left.has(String(read.sealed?.hash))) {
      refused.add(line, { key: 'target', values: {} });
    } else {
      batch.push(read.sealed);
      characters += String(read.sealed?.head).length + String(read.sealed?.body).length;
      if (batch.length >= BATCH || characters >= BATCH_CHARACTERS) await flush();
    }
  }
  await flush();
  puzzle.end();
  return { added, attachments, refused: refused.all, torn: next.value };
};

interface Begun {
  readonly sha256: string;
  readonly size: number;
  readonly line: number;
  readonly hash: RunningHash;
  readonly parts: Uint8Array<ArrayBuffer>[];
  length: number;
}

/**
 * Puts attachments together again, one at a time: their pieces stand one behind the other.
 *
 * @param isKept whether their bytes are wanted; a preview only hashes them
 */
const createPuzzle = (
  done: (sha256: string, bytes: Uint8Array<ArrayBuffer>) => Promise<void>,
  bad: (line: number, problem: CarryProblem) => void,
  isKept: boolean,
) => {
  let begun: Begun | null = null;
  const short = (sha256: string) => ({ name: sha256.slice(0, 12) });
  const end = () => {
    if (begun !== null) bad(begun.line, { key: 'incomplete', values: short(begun.sha256) });
    begun = null;
  };
  return {
    end,
    async add(line: number, { sha256, size, offset, bytes }: Piece): Promise<void> {
      if (offset === 0) {
        end();
        begun = { sha256, size, line, hash: runningHash(), parts: [], length: 0 };
      }
      const isNext = begun?.sha256 === sha256 && begun.size === size && begun.length === offset;
      if (begun === null || !isNext || (bytes.length === 0 && size > 0))
        return bad(line, { key: 'piece', values: {} });
      begun.hash.add(bytes);
      begun.length += bytes.length;
      if (isKept) begun.parts.push(bytes);
      if (begun.length < size) return;
      const whole = begun;
      begun = null;
      if (whole.hash.soFar() !== sha256) bad(whole.line, { key: 'digest', values: short(sha256) });
      else await done(sha256, new Uint8Array(await new Blob(whole.parts).arrayBuffer()));
    },
  };
};
