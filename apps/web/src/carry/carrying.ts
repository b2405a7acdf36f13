import type { CarryPeer, CarryPreview, CarryTaken } from '@firnbook/exchange/carry';
import type { Replica, Store, Verify } from '@firnbook/journal';
import type { Files } from '../device/files.ts';

/** A device whose file was brought in here, and how much that is here it lacked then. */
export interface PeerHere {
  readonly peer: CarryPeer;
  readonly lacks: number;
}

export interface Brought extends CarryTaken {
  /** Whose file it was; null where it is torn, as its first line is not relied on then. */
  readonly from: PeerHere | null;
}

/** One campaign's way from device to device by file. */
export interface Carrying {
  /** The one brought last first. */
  peers(): Promise<readonly PeerHere[]>;
  /** Everything, or what one device lacks. */
  write(peer: CarryPeer | null): Promise<File>;
  /** What a file would bring; rejects with CarryFileError where it is none. */
  look(file: Blob): Promise<CarryPreview>;
  take(file: Blob, preview: CarryPreview, onProgress: (entries: number) => void): Promise<Brought>;
}

export interface CarryingOptions {
  readonly campaign: string;
  readonly ready: () => Promise<{
    readonly replica: Replica;
    readonly notes: Pick<Store, 'note' | 'setNote'>;
    /** Undefined where the browser can't check signatures. */
    readonly verify?: Verify | undefined;
  }>;
  readonly files: Pick<Files, 'here' | 'put'>;
  readonly campaignName: () => string;
  readonly deviceName: () => string;
  readonly now: () => number;
  /** Entries or pictures came: other tabs and the camp computer may want them. */
  readonly onTaken: () => void;
}

/** Comes with the first file: the first look does without it. */
const rules = () => import('@firnbook/exchange/carry');

/** Text that is held as such before the browser gets it, UTF-16 code units. */
const AT_ONCE = 4_000_000;

export function startCarrying(options: CarryingOptions): Carrying {
  const { campaign, files } = options;

  const hasAttachment = async (sha256: string) => (await files.here(sha256)) !== null;

  const peers: Carrying['peers'] = async () => {
    const { CARRY_NOTE, lacking, readCarryPeers } = await rules();
    const { replica, notes } = await options.ready();
    const list = readCarryPeers(await notes.note(CARRY_NOTE));
    return list
      .filter(({ device }) => device !== replica.device)
      .map((peer) => ({ peer, lacks: lacking(replica.ledger, peer) }));
  };

  const write: Carrying['write'] = async (peer) => {
    const { carryFileName, carryLines } = await rules();
    const { replica } = await options.ready();
    // A store that fails is the very reason to carry away what is held in memory still.
    await replica.refresh().catch(() => undefined);
    const readable = (sha256: string) => files.here(sha256).catch(() => null);
    const now = options.now();
    const campaignName = options.campaignName();
    const deviceName = options.deviceName();
    const lines = carryLines({
      campaign,
      campaignName,
      ledger: replica.ledger,
      device: replica.device,
      deviceName,
      now,
      attachments: { has: async (sha256) => (await readable(sha256)) !== null, read: readable },
      peer,
    });
    const parts: Blob[] = [];
    let text: string[] = [];
    let length = 0;
    // The browser can put a Blob on its disk; a season's photographs would not fit into memory as text.
    const put = () => {
      parts.push(new Blob(text));
      text = [];
      length = 0;
    };
    for await (const line of lines) {
      text.push(line);
      length += line.length;
      if (length <= AT_ONCE) continue;
      put();
      // The screens go on while a season is written.
      await new Promise((resolve) => setTimeout(resolve));
    }
    put();
    return new File(parts, carryFileName(campaignName, deviceName, now), { type: 'application/jsonl' });
  };

  const look: Carrying['look'] = async (file) => {
    const { previewCarry } = await rules();
    const { replica, verify } = await options.ready();
    await replica.refresh();
    return previewCarry(chunksOf(file), { ledger: replica.ledger, hasAttachment, verify });
  };

  const take: Carrying['take'] = async (file, preview, onProgress) => {
    const { CARRY_NOTE, lacking, rememberPeer, takeCarry } = await rules();
    const { replica, notes } = await options.ready();
    const taken = await takeCarry(chunksOf(file), preview, {
      take: replica.take,
      hasAttachment,
      keepAttachment: async (_sha256, bytes) => files.put(bytes),
      onProgress,
    });
    options.onTaken();
    if (taken.torn !== null || preview.first.device === replica.device) return { ...taken, from: null };
    await notes.setNote(CARRY_NOTE, rememberPeer(await notes.note(CARRY_NOTE), preview.first));
    return { ...taken, from: { peer: preview.first, lacks: lacking(replica.ledger, preview.first) } };
  };

  return { peers, write, look, take };
}

/** By hand, as not every browser's streams can be iterated over. */
export async function* chunksOf(file: Blob): AsyncGenerator<Uint8Array, void, void> {
  const reader = file.stream().getReader();
  try {
    for (let read = await reader.read(); !read.done; read = await reader.read()) yield read.value;
  } finally {
    // A reader that stops early must not keep the file open.
    await reader.cancel().catch(() => undefined);
  }
}
