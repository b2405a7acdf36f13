import { type Have, possessionText, type Signer } from '@firnbook/journal';

/** Pairing, as the camp computer answers it. Every call rejects with its words where it refuses. */

/** What the camp computer knows of the device that asks. */
export interface Own {
  /** The camp computer itself, which needs no pairing. */
  readonly isHere: boolean;
  readonly name: string | null;
  readonly isPaired: boolean;
  readonly isRevoked: boolean;
  /** The signing key under which it is listed; null where it told none. */
  readonly publicKey: string | null;
  /** What it signs to tell its key; null where it is not let in. */
  readonly challenge: string | null;
}

export interface PairedDevice {
  readonly id: string;
  readonly name: string;
  readonly pairedAt: string;
  /** When it was paired again under the same key. */
  readonly renewedAt: string | null;
  readonly lastSeen: string;
  readonly revokedAt: string | null;
  readonly publicKey: string | null;
  /** Another key that it showed since: its browser lost its storage, or somebody has its credential. */
  readonly otherKey: { readonly key: string; readonly at: string } | null;
  /** What the camp computer held of its entries, by campaign, when it was revoked. */
  readonly held: Readonly<Record<string, Have>> | null;
}

/** What a paired device wrote in one campaign. */
export interface Wrote {
  /** Its id in the list. */
  readonly device: string;
  readonly campaign: string;
  /** Of the campaign. */
  readonly name: string;
  readonly entries: number;
  /** Of these, what came after it was revoked. */
  readonly came: number;
  /** Of those, what was made after that by its own clock. */
  readonly made: number;
}

export interface QrDrawing {
  readonly size: number;
  readonly path: string;
}

/** What the camp computer shows to one device. */
export interface Offer {
  readonly address: string;
  readonly installAddress: string;
  readonly fingerprint: string;
  readonly url: string;
  readonly code: string;
  readonly until: string;
  readonly qr: QrDrawing;
  readonly installQr: QrDrawing;
}

const patience = 20_000;

export const askOwn = async (): Promise<Own> => (await askCamp('/api/device', 'GET')) as Own;

export const listDevices = async (): Promise<readonly PairedDevice[]> =>
  (await askCamp('/api/devices', 'GET')) as readonly PairedDevice[];

export const listWrote = async (): Promise<readonly Wrote[]> =>
  (await askCamp('/api/devices/entries', 'GET')) as readonly Wrote[];

export const makeOffer = async (): Promise<Offer> => (await askCamp('/api/pairing/offers', 'POST')) as Offer;

export const revokeDevice = async (id: string): Promise<void> =>
  void (await askCamp(`/api/devices/${encodeURIComponent(id)}/revoke`, 'POST'));

/**
 * Resolves with the name under which the device is listed; its credential is kept by the browser, out of reach.
 *
 * @param signer absent where the browser has no such key
 */
export async function pairDevice(secret: string, name: string, signer: Signer | undefined): Promise<string> {
  const shown = signer === undefined ? {} : await shownKey(signer, secret);
  return ((await askCamp('/api/pairing', 'POST', { secret, name, ...shown })) as { readonly name: string })
    .name;
}

/** A device that was paired before it could show its key does so now. Rejects where the list has another one. */
export async function tellKey(signer: Signer, challenge: string): Promise<void> {
  await askCamp('/api/device/key', 'POST', await shownKey(signer, challenge));
}

const shownKey = async (signer: Signer, challenge: string) => ({
  publicKey: signer.key,
  proof: await signer.sign(possessionText(challenge)),
});

/** @throws Error with the camp computer's words where it refuses */
export async function askCamp(path: string, method: 'GET' | 'POST', body?: object): Promise<unknown> {
  const answer = await fetch(path, {
    method,
    cache: 'no-store',
    signal: AbortSignal.timeout(patience),
    ...(body !== undefined && {
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    }),
  });
  const said = (await answer.json()) as { readonly what?: string; readonly mend?: string };
  if (answer.ok) return said;
  throw new Error(`${said.what}. ${said.mend}`);
}
