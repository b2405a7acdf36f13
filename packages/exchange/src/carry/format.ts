import { type Have, type Json, parse, readHave } from '@firnbook/journal';

/** Another number is a file that this version does not read. */
const CARRY_FORMAT = 1;

/** Bytes of an attachment on one line. */
export const PIECE_BYTES = 1024 * 1024;

/** Longest line that is read, bytes: an entry of 256 kB or a piece, written as JSON, is never longer. */
export const LINE_LIMIT = 4 * 1024 * 1024;

/** Largest attachment that travels, bytes: what the camp computer takes. */
const ATTACHMENT_LIMIT = 512 * 1024 * 1024;

/** Names of attachments in one line, so that it keeps within the limit. */
const WANTS_LIMIT = 20_000;

/** Somebody who was seen to hold something: the copy of the campaign on another device, as its own file told. */
export interface CarryPeer {
  readonly device: string;
  readonly deviceName: string;
  /** ISO 8601, UTC, of that device's clock: when it wrote its file. */
  readonly madeAt: string;
  readonly have: Have;
  /** Attachments that its entries name and that it does not hold. */
  readonly wants: readonly string[];
}

/** The first line: whose file it is and what it offers. */
export interface CarryFirst extends CarryPeer {
  readonly campaign: string;
  readonly campaignName: string;
  /** Whose holdings the choice of entries rests on; null where everything is offered. */
  readonly for: Pick<CarryPeer, 'device' | 'deviceName' | 'have'> | null;
  readonly entries: number;
  /** Digest of the entries that it offers. */
  readonly digest: string;
  readonly attachments: number;
}

/** Bytes of an attachment from `offset` on. */
export interface Piece {
  readonly sha256: string;
  /** Of the whole attachment. */
  readonly size: number;
  readonly offset: number;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

const HASH = /^[0-9a-f]{64}$/;
const WORD = /^[!-~]{1,128}$/;
const CAMPAIGN = /^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/;
const NAME_LIMIT = 200;
// biome-ignore lint/suspicious/noControlCharactersInRegex: a name from a file is shown, and these do things to a terminal
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

export const firstLine = (first: CarryFirst): string =>
  JSON.stringify({
    firnbook: 'carry',
    format: CARRY_FORMAT,
    ...first,
    wants: first.wants.slice(0, WANTS_LIMIT),
  });

export type FirstRead =
  | { readonly ok: true; readonly first: CarryFirst }
  | { readonly ok: false; readonly problem: 'strange' }
  | { readonly ok: false; readonly problem: 'newer'; readonly format: string };

/** Copies what it knows and leaves the rest behind; a name is cut and freed of what would steer a terminal. */
export const readFirst = (text: string): FirstRead => {
  let line: Fields;
  try {
    line = fields(parse(text));
  } catch {
    return { ok: false, problem: 'strange' };
  }
  if (line.firnbook !== 'carry') return { ok: false, problem: 'strange' };
  if (line.format !== CARRY_FORMAT)
    return { ok: false, problem: 'newer', format: String(line.format).slice(0, 20) };
  try {
    const asked = line.for === null ? null : fields(line.for);
    return {
      ok: true,
      first: {
        ...holder(line),
        campaign: campaign(line.campaign),
        campaignName: name(line.campaignName),
        madeAt: time(line.madeAt),
        wants: hashes(line.wants),
        for: asked === null ? null : holder(asked),
        entries: count(line.entries),
        digest: hash(line.digest),
        attachments: count(line.attachments),
      },
    };
  } catch {
    return { ok: false, problem: 'strange' };
  }
};

/** A device's holdings as a note keeps them; null where they can't be read. */
export const readPeer = (value: unknown): CarryPeer | null => {
  try {
    const line = fields(value);
    return { ...holder(line), madeAt: time(line.madeAt), wants: hashes(line.wants) };
  } catch {
    return null;
  }
};

type Fields = Readonly<Record<string, Json | undefined>>;

const holder = (line: Fields) => ({
  device: word(line.device),
  deviceName: name(line.deviceName),
  have: readHave(line.have),
});

const fields = (value: unknown): Fields => {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new TypeError('no object');
  return value as Fields;
};

const word = (value: unknown): string => {
  if (typeof value !== 'string' || !WORD.test(value)) throw new TypeError('no word');
  return value;
};

/** It becomes the name of a folder and of a database. */
const campaign = (value: unknown): string => {
  if (typeof value !== 'string' || !CAMPAIGN.test(value)) throw new TypeError('no campaign');
  return value;
};

const name = (value: unknown): string => {
  if (typeof value !== 'string') throw new TypeError('no name');
  return value.slice(0, NAME_LIMIT).replace(CONTROL, ' ').trim();
};

const time = (value: unknown): string => {
  const at = typeof value === 'string' ? Date.parse(value) : Number.NaN;
  if (Number.isNaN(at)) throw new TypeError('no time');
  return new Date(at).toISOString();
};

const hash = (value: unknown): string => {
  if (typeof value !== 'string' || !HASH.test(value)) throw new TypeError('no hash');
  return value;
};

const hashes = (value: unknown): readonly string[] => {
  if (!Array.isArray(value) || value.length > WANTS_LIMIT) throw new TypeError('no list');
  return value.map(hash);
};

const count = (value: unknown): number => {
  if (!Number.isSafeInteger(value) || (value as number) < 0) throw new TypeError('no count');
  return value as number;
};

export const pieceLine = ({ sha256, size, offset, bytes }: Piece): string =>
  JSON.stringify({ attachment: sha256, size, offset, bytes: toBase64(bytes) });

/** Null where the line is no piece of an attachment. */
export const readPiece = (line: Fields): Piece | null => {
  try {
    const size = count(line.size);
    const offset = count(line.offset);
    if (typeof line.bytes !== 'string') return null;
    const bytes = fromBase64(line.bytes);
    const isInside = bytes.length <= PIECE_BYTES && offset + bytes.length <= size && size <= ATTACHMENT_LIMIT;
    return isInside ? { sha256: hash(line.attachment), size, offset, bytes } : null;
  } catch {
    return null;
  }
};

const STEP = 8192;

const toBase64 = (bytes: Uint8Array): string => {
  let binary = '';
  for (let at = 0; at < bytes.length; at += STEP)
    binary += String.fromCharCode(...bytes.subarray(at, at + STEP));
  return btoa(binary);
};

/** @throws for text that isn't base64 */
const fromBase64 = (text: string): Uint8Array<ArrayBuffer> => {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let at = 0; at < binary.length; at += 1) bytes[at] = binary.charCodeAt(at);
  return bytes;
};

/** SHA-256 of attachments that an entry's body names: any text in it that could be one. */
export const namedIn = (body: string | null): readonly string[] =>
  [...(body ?? '').matchAll(/"([0-9a-f]{64})"/g)].map((found) => found[1]!);
