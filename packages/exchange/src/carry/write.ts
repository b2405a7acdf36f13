import { coverageOf, digestOf, type Entry, type Have, haveOf, type Ledger, offer } from '@firnbook/journal';
import { type CarryPeer, firstLine, namedIn, PIECE_BYTES, pieceLine } from './format.ts';
import { runningHash } from './running-hash.ts';

/** What a device can read of the attachments beside its journal. */
export interface AttachmentsHere {
  has(sha256: string): Promise<boolean>;
  read(sha256: string): Promise<Uint8Array<ArrayBuffer> | null>;
}

export interface CarrySource {
  readonly campaign: string;
  readonly campaignName: string;
  readonly ledger: Ledger;
  readonly device: string;
  readonly deviceName: string;
  /** Milliseconds since 1970. */
  readonly now: number;
  readonly attachments: AttachmentsHere;
  /** For whom: only what it lacked when it wrote its own file. Null: everything. */
  readonly peer: CarryPeer | null;
  /** Only for tests, which break it. */
  readonly choose?: typeof choose;
}

/**
 * What a device lacks, own and others' entries, never one before the one it follows or corrects. A branch that is
 * further there than here is offered all the same: no answer would come to say that it was there already.
 */
export const choose = (ledger: Ledger, have: Have): readonly Entry[] => {
  const coverage = { ...coverageOf(ledger, have), isAhead: () => false };
  return offer(ledger, coverage, { entries: Infinity, characters: Infinity }).entries;
};

/** How many entries and attachments a file for this device would carry. */
export const lacking = (ledger: Ledger, peer: CarryPeer): number => choose(ledger, peer.have).length;

/** The file, line by line, each with its line feed. */
export async function* carryLines(source: CarrySource): AsyncGenerator<string, void, void> {
  const { ledger, attachments, peer } = source;
  const entries = (source.choose ?? choose)(ledger, peer?.have ?? {});
  const offered = new Set([
    ...(peer?.wants ?? []),
    ...entries.flatMap((entry) => namedIn(entry.sealed.body)),
  ]);
  const [held, wants] = [new Set<string>(), new Set<string>()];
  for (const entry of ledger.entries()) {
    for (const sha256 of namedIn(entry.sealed.body)) {
      if (held.has(sha256) || wants.has(sha256)) continue;
      if (await attachments.has(sha256)) held.add(sha256);
      else wants.add(sha256);
    }
  }
  const brought = [...offered].filter((sha256) => held.has(sha256));
  const hash = runningHash();
  const encoder = new TextEncoder();
  let lines = 0;
  const line = (text: string): string => {
    lines += 1;
    hash.add(encoder.encode(`${text}\n`));
    return `${text}\n`;
  };

  yield line(
    firstLine({
      campaign: source.campaign,
      campaignName: source.campaignName,
      device: source.device,
      deviceName: source.deviceName,
      madeAt: new Date(source.now).toISOString(),
      have: haveOf(ledger),
      wants: [...wants],
      for: peer && { device: peer.device, deviceName: peer.deviceName, have: peer.have },
      entries: entries.length,
      digest: digestOf(entries.map((entry) => entry.hash)),
      attachments: brought.length,
    }),
  );
  for (const { sealed } of entries) yield line(JSON.stringify({ entry: sealed }));
  for (const sha256 of brought) {
    const bytes = await attachments.read(sha256);
    if (bytes === null) continue;
    let offset = 0;
    do {
      const piece = bytes.subarray(offset, offset + PIECE_BYTES);
      yield line(pieceLine({ sha256, size: bytes.length, offset, bytes: piece }));
      offset += PIECE_BYTES;
    } while (offset < bytes.length);
  }
  yield `${JSON.stringify({ end: { lines, sha256: hash.soFar() } })}\n`;
}
