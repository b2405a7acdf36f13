/** Pairing, as the camp computer answers it. Every call rejects with its words where it refuses. */

/** What the camp computer knows of the device that asks. */
export interface Own {
  /** The camp computer itself, which needs no pairing. */
  readonly isHere: boolean;
  readonly name: string | null;
  readonly isPaired: boolean;
  readonly isRevoked: boolean;
}

export interface PairedDevice {
  readonly id: string;
  readonly name: string;
  readonly pairedAt: string;
  readonly lastSeen: string;
  readonly revokedAt: string | null;
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

export const askOwn = async (): Promise<Own> => (await ask('/api/device', 'GET')) as Own;

export const listDevices = async (): Promise<readonly PairedDevice[]> =>
  (await ask('/api/devices', 'GET')) as readonly PairedDevice[];

export const makeOffer = async (): Promise<Offer> => (await ask('/api/pairing/offers', 'POST')) as Offer;

export const revokeDevice = async (id: string): Promise<void> =>
  void (await ask(`/api/devices/${encodeURIComponent(id)}/revoke`, 'POST'));

/** Resolves with the name under which the device is listed; its credential is kept by the browser, out of reach. */
export const pairDevice = async (secret: string, name: string): Promise<string> =>
  ((await ask('/api/pairing', 'POST', { secret, name })) as { readonly name: string }).name;

async function ask(path: string, method: 'GET' | 'POST', body?: object): Promise<unknown> {
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
