import { createHash, randomBytes, randomInt, randomUUID } from 'node:crypto';

/** What a person shows to a device so that it may be paired. */
interface Offer {
  readonly id: string;
  /** In the QR code: 160 bits. */
  readonly token: string;
  /** To be typed where a camera is missing: "H7QK-M2XR-4T", 50 bits. */
  readonly code: string;
  /** Milliseconds since 1970. */
  readonly until: number;
}

type Tried = 'taken' | 'wrong' | 'too often';

export interface Pairing {
  offer(): Offer;
  /**
   * Takes an offer by its token or code; either one uses it up.
   *
   * @param address where the attempt comes from
   */
  take(secret: string, address: string): Tried;
  /** Gives an offer back that was taken by `secret` when the pairing could not be kept. */
  giveBack(secret: string): void;
}

interface Open {
  readonly id: string;
  readonly token: string;
  readonly code: string;
  readonly until: number;
  isTaken: boolean;
}

/** ms that an offer is good for. */
export const offerFor = 10 * 60_000;
/** Screens that show one at the same time; the oldest gives way. */
const mostOffers = 10;
/** Wrong attempts a minute from one address; and of codes, which can be guessed at all, from everywhere together. */
const mostWrong = { address: 10, codes: 60 } as const;
const minute = 60_000;
/** Without I, L, O and U: nothing that is read for something else (Crockford's base 32; from memory). */
const signs = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const codeLength = 10;

/** One-time offers to pair a device; they live in memory and end with the server. */
export function openPairing(now: () => number = Date.now): Pairing {
  let offers: Open[] = [];
  const wrong = new Map<string, number[]>();
  const codes = 'codes';

  const lately = (key: string): number[] => (wrong.get(key) ?? []).filter((at) => now() - at < minute);
  const note = (key: string) => {
    // Whoever tries from many addresses must not fill the memory.
    if (wrong.size > 1000) for (const one of wrong.keys()) if (lately(one).length === 0) wrong.delete(one);
    if (wrong.size <= 2000) wrong.set(key, [...lately(key), now()]);
  };
  const find = (secret: string): Open | undefined => {
    const hash = hashOf(read(secret));
    return offers.find(({ token, code }) => token === hash || code === hash);
  };

  return {
    offer() {
      const token = randomBytes(20).toString('base64url');
      const code = Array.from({ length: codeLength }, () => signs[randomInt(signs.length)]).join('');
      const until = now() + offerFor;
      const id = randomUUID();
      const open = { id, token: hashOf(token), code: hashOf(code), until, isTaken: false };
      offers = [...offers.filter((one) => one.until > now() && !one.isTaken), open].slice(-mostOffers);
      return { id, token, code: code.replace(/(.{4})(?=.)/g, '$1-'), until };
    },
    take(secret, address) {
      const isCode = isCodeLike(secret);
      if (lately(address).length >= mostWrong.address) return 'too often';
      if (isCode && lately(codes).length >= mostWrong.codes) return 'too often';
      const found = find(secret);
      if (found !== undefined && !found.isTaken && found.until > now()) {
        found.isTaken = true;
        return 'taken';
      }
      note(address);
      if (isCode) note(codes);
      return 'wrong';
    },
    giveBack(secret) {
      const found = find(secret);
      if (found !== undefined) found.isTaken = false;
    },
  };
}

const bare = (secret: string): string => secret.replace(/[\s-]/g, '').toUpperCase();
const isCodeLike = (secret: string): boolean => bare(secret).length <= codeLength;

/** A typed code as it was shown: case, spaces and dashes don't count, and I, L and O are read as 1, 1 and 0. */
const read = (secret: string): string =>
  isCodeLike(secret) ? bare(secret).replace(/[IL]/g, '1').replace(/O/g, '0') : secret;

/** Compared by hash, so that the time it takes tells nothing of the secret. */
const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');
