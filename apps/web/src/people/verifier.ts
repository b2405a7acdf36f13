import { type Guesses, guessesNow, oneMoreGuess, waitLeft } from '@firnbook/campaign';
import { forget, keep, recall } from '../device/kept.ts';

/** What this device keeps of a PIN that the camp computer found right here, for when that is away. */
export interface OwnVerifier {
  /** When the PIN was set, as the camp computer says: another one means another PIN. */
  readonly setAt: string;
  /** base64 */
  readonly salt: string;
  /** base64 */
  readonly hash: string;
}

/** argon2id of a PIN, base64. Takes a while and holds nothing up. @param salt base64 */
export type Derive = (pin: string, salt: string) => Promise<string>;

export type OwnAnswer =
  | { readonly is: 'right' }
  | { readonly is: 'wrong' }
  | { readonly is: 'wait'; readonly seconds: number };

const verifierOf = (campaign: string, person: string) => `pin.${campaign}.${person}`;
const guessesOf = (campaign: string, person: string) => `pin-guesses.${campaign}.${person}`;

/** Null where this device never saw the person's PIN, or what it keeps is damaged. */
export function ownVerifier(campaign: string, person: string): OwnVerifier | null {
  const { setAt, salt, hash } = parsed(verifierOf(campaign, person)) as Partial<OwnVerifier>;
  if (typeof setAt !== 'string' || typeof salt !== 'string' || typeof hash !== 'string') return null;
  return { setAt, salt, hash };
}

/** Whether this device can check the person's PIN by itself. */
export const hasVerifier = (campaign: string, person: string): boolean =>
  ownVerifier(campaign, person) !== null;

export function dropVerifier(campaign: string, person: string): void {
  forget(verifierOf(campaign, person));
}

/** Keeps a PIN that the camp computer found right. */
export async function keepVerifier(
  campaign: string,
  person: string,
  right: { readonly pin: string; readonly setAt: string },
  derive: Derive,
): Promise<void> {
  forget(guessesOf(campaign, person));
  if (ownVerifier(campaign, person)?.setAt === right.setAt) return;
  const salt = btoa(String.fromCharCode(...crypto.getRandomValues(new Uint8Array(16))));
  const hash = await derive(right.pin, salt);
  keep(
    verifierOf(campaign, person),
    JSON.stringify({ setAt: right.setAt, salt, hash } satisfies OwnVerifier),
  );
}

/** Checks a PIN against what this device keeps. Wrong ones are counted here as the camp computer counts them, and the count outlives a reload. */
export async function checkHere(
  campaign: string,
  person: string,
  pin: string,
  { own, derive, now }: { readonly own: OwnVerifier; readonly derive: Derive; readonly now: () => number },
): Promise<OwnAnswer> {
  const name = guessesOf(campaign, person);
  const before = guessesNow(readGuesses(name), now());
  const wait = waitLeft(before, now());
  if (wait > 0) {
    // A clock that was set back counts from now.
    keep(name, JSON.stringify(before));
    return { is: 'wait', seconds: Math.ceil(wait / 1000) };
  }
  // Counted first: a reload while it is worked out takes no guess back.
  keep(name, JSON.stringify(oneMoreGuess(before, now())));
  if ((await derive(pin, own.salt)) !== own.hash) return { is: 'wrong' };
  forget(name);
  return { is: 'right' };
}

function readGuesses(name: string): Guesses | null {
  const { wrong, last } = parsed(name) as Partial<Guesses>;
  return typeof wrong === 'number' && typeof last === 'number' ? { wrong, last } : null;
}

function parsed(name: string): object {
  try {
    const value: unknown = JSON.parse(recall(name) ?? 'null');
    return typeof value === 'object' && value !== null ? value : {};
  } catch {
    return {};
  }
}
