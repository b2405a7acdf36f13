import { createPublicKey, generateKeyPairSync, verify as isSignedBy, sign } from 'node:crypto';
import {
  copyMemoryDisk,
  createMemoryDisk,
  createMemoryStore,
  type Draft,
  type MemoryDisk,
  newId,
  openReplica,
  type Replica,
  type Signer,
} from '@firnbook/journal';
import type { Random } from '@firnbook/science/random';
import { type CarryPreview, type CarryTaken, previewCarry, takeCarry } from './bring.ts';
import type { CarryPeer } from './format.ts';
import { CARRY_NOTE, readCarryPeers, rememberPeer } from './peers.ts';
import type { EndRule } from './read.ts';
import { type CarrySource, carryLines } from './write.ts';

/** A device of a test that meets others by file alone. */
export interface Carrier {
  readonly name: string;
  readonly replica: Replica;
  readonly disk: MemoryDisk;
  readonly files: Map<string, Uint8Array<ArrayBuffer>>;
}

/** Ed25519 by Node's own implementation. */
export const verify = (key: string, signature: string, text: string): boolean =>
  isSignedBy(
    null,
    Buffer.from(text),
    createPublicKey({ format: 'jwk', key: { kty: 'OKP', crv: 'Ed25519', x: key } }),
    Buffer.from(signature, 'base64url'),
  );

export const newSigner = (): Signer => {
  const { privateKey, publicKey } = generateKeyPairSync('ed25519');
  return {
    key: publicKey.export({ format: 'jwk' }).x!,
    sign: (text) => sign(null, Buffer.from(text), privateKey).toString('base64url'),
  };
};

/** Below `count`, whole. */
export const below = (random: Random, count: number): number => Math.floor(random.uniform() * count);

export const source = (random: Random) => ({
  now: () => Date.UTC(2031, 5, 14, 9),
  randomBytes: (length: number) => Uint8Array.from({ length }, () => below(random, 256)),
});

export const openCarrier = async (
  name: string,
  random: Random,
  disk = createMemoryDisk(newId(source(random))),
  files = new Map<string, Uint8Array<ArrayBuffer>>(),
  signer?: Signer,
): Promise<Carrier> => {
  const replica = await openReplica(createMemoryStore('ceredin', disk), {
    ...source(random),
    verify,
    ...(signer === undefined ? {} : { signer }),
  });
  return { name, replica, disk, files };
};

/** The same device after its disk was set back to an older copy of it, or a copy that goes on beside it. */
export const reopened = (carrier: Carrier, disk: MemoryDisk, epoch: string, random: Random, name: string) =>
  openCarrier(name, random, copyMemoryDisk(disk, epoch), new Map(carrier.files));

export const draft = (random: Random, more: Partial<Draft> = {}): Draft => ({
  id: newId(source(random)),
  kind: 'piece.logged',
  version: 1,
  observedAt: '2031-06-14T11:42:00+02:00',
  by: 'person-hn',
  body: { hole: 'hole-a', readings: { length: `${below(random, 900)}.5 mm` } },
  ...more,
});

export const peersOf = (carrier: Carrier): readonly CarryPeer[] =>
  readCarryPeers(carrier.disk.notes.get(CARRY_NOTE) ?? null);

export const write = async (
  carrier: Carrier,
  peer: CarryPeer | null,
  more: Pick<CarrySource, 'choose'> = {},
): Promise<Uint8Array> => {
  const lines: string[] = [];
  const { replica, files, name } = carrier;
  const all = carryLines({
    campaign: 'ceredin',
    campaignName: 'Ceredin Saddle',
    ledger: replica.ledger,
    device: replica.device,
    deviceName: name,
    now: Date.UTC(2031, 5, 14, 9, 30),
    attachments: { has: async (sha) => files.has(sha), read: async (sha) => files.get(sha) ?? null },
    peer,
    ...more,
  });
  for await (const line of all) lines.push(line);
  return new TextEncoder().encode(lines.join(''));
};

/** As a stick gives it: in chunks that know nothing of lines. */
export async function* chunksOf(bytes: Uint8Array, size = 60_000): AsyncGenerator<Uint8Array, void, void> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.subarray(at, at + size);
}

export interface Brought {
  readonly preview: CarryPreview;
  readonly taken: CarryTaken;
}

/** Preview, take, and remember whose file it was, as every device does. */
export const bring = async (
  carrier: Carrier,
  bytes: Uint8Array,
  rules: { readonly isEnd?: EndRule; readonly leave?: boolean } = {},
): Promise<Brought> => {
  const { replica, files, disk } = carrier;
  const hasAttachment = async (sha: string) => files.has(sha);
  const seen = await previewCarry(chunksOf(bytes), {
    ledger: replica.ledger,
    hasAttachment,
    verify,
    isEnd: rules.isEnd,
  });
  const preview = rules.leave === false ? { ...seen, left: new Set<string>() } : seen;
  const taken = await takeCarry(chunksOf(bytes), preview, {
    take: replica.take,
    hasAttachment,
    keepAttachment: async (sha, content) => void files.set(sha, content),
  });
  if (preview.torn === null) {
    const note = disk.notes.get(CARRY_NOTE) ?? null;
    disk.notes.set(CARRY_NOTE, rememberPeer(note, preview.first));
  }
  return { preview, taken };
};
