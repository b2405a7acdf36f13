import type { Signer, Verify } from '@firnbook/journal';
import { type DBSchema, openDB } from 'idb';
import { roomGuard } from './guard.ts';
import { settled } from './settled.ts';

/** What this browser can do about signatures; what it can't is absent. */
export interface BrowserSigning {
  readonly signer?: Signer;
  readonly verify?: Verify;
}

interface Layout extends DBSchema {
  keys: { key: string; value: CryptoKeyPair };
}

const name = 'firnbook-device-key';
const curve = 'Ed25519';
/** RFC 8032, section 7.1, test 1: a key that every browser with this curve can read. */
const known = '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo';

/**
 * Signing and checking by the browser's own WebCrypto. Plain http has none, older browsers have it without this curve:
 * then nothing is signed here. Never rejects, because a missing key keeps nobody from writing.
 */
export async function openSigning(): Promise<BrowserSigning> {
  const { subtle } = globalThis.crypto as { readonly subtle?: SubtleCrypto };
  if (subtle === undefined) return {};
  const verify = verifyWith(subtle);
  try {
    await readKey(subtle, known);
  } catch {
    return {};
  }
  try {
    const { privateKey, publicKey } = await settled(ownPair(subtle), 'Opening the key of this device', name);
    const key = textOf(await subtle.exportKey('raw', publicKey));
    const sign = async (text: string) =>
      textOf(await settled(subtle.sign(curve, privateKey, bytesOf(text)), 'Signing', name));
    return { verify, signer: { key, sign } };
  } catch {
    return { verify };
  }
}

/**
 * The pair that was made at the first call. Its private half can be used and never be read, here or by anybody who gets
 * at this page. Whichever tab is first makes it.
 */
async function ownPair(subtle: SubtleCrypto): Promise<CryptoKeyPair> {
  await roomGuard().begin();
  const db = await openDB<Layout>(name, 1, { upgrade: (made) => void made.createObjectStore('keys') });
  try {
    const held = await db.get('keys', 'own');
    if (held !== undefined) return held;
    const made = (await subtle.generateKey(curve, false, ['sign', 'verify'])) as CryptoKeyPair;
    const tx = db.transaction('keys', 'readwrite', { durability: 'strict' });
    const other = await tx.store.get('own');
    if (other === undefined) await tx.store.add(made, 'own');
    await tx.done;
    return other ?? made;
  } finally {
    db.close();
  }
}

function verifyWith(subtle: SubtleCrypto): Verify {
  /** A camp has some dozens of devices. */
  const ready = new Map<string, Promise<CryptoKey>>();
  const most = 1000;
  return async (key, signature, text) => {
    try {
      let read = ready.get(key);
      if (read === undefined) {
        if (ready.size >= most) ready.clear();
        read = readKey(subtle, key);
        ready.set(key, read);
      }
      return await subtle.verify(curve, await read, bytesIn(signature), bytesOf(text));
    } catch {
      // Bytes that are no point of the curve are no device's key.
      return false;
    }
  };
}

function readKey(subtle: SubtleCrypto, key: string): Promise<CryptoKey> {
  return subtle.importKey('raw', bytesIn(key), curve, true, ['verify']);
}

function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(text);
}

/** Bytes from base64url. */
function bytesIn(text: string): Uint8Array<ArrayBuffer> {
  const binary = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
}

/** Base64url of bytes. */
function textOf(bytes: ArrayBuffer): string {
  const binary = String.fromCharCode(...new Uint8Array(bytes));
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}
