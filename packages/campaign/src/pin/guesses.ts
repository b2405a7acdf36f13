/** Wrong PINs of one person from one side, as both the camp computer and a tablet count them. */
export interface Guesses {
  readonly wrong: number;
  /** Of the last one, ms since 1970. */
  readonly last: number;
}

/** Before anybody has to wait. Three sides of one person (see the camp computer's count) stay below ten a minute. */
const free = 3;
const firstWait = 60_000;
const longestWait = 60 * 60_000;
const forgottenAfter = 24 * 60 * 60_000;

/**
 * What still counts now. A clock that was set back starts the wait over from the moment this is seen: it shortens
 * none, and none grows beyond an hour.
 */
export function guessesNow(guesses: Guesses | null, now: number): Guesses | null {
  if (guesses === null || now - guesses.last >= forgottenAfter) return null;
  return now < guesses.last ? { ...guesses, last: now } : guesses;
}

/** ms until the next guess is taken; 0 where it may come at once. */
export function waitLeft(guesses: Guesses | null, now: number): number {
  const current = guessesNow(guesses, now);
  if (current === null || current.wrong < free) return 0;
  const wait = Math.min(longestWait, firstWait * 2 ** (current.wrong - free));
  return Math.max(0, current.last + wait - now);
}

/** One more. To be kept before the guess is looked at, so that many at once can't all be the first. */
export function oneMoreGuess(guesses: Guesses | null, now: number): Guesses {
  return { wrong: (guessesNow(guesses, now)?.wrong ?? 0) + 1, last: now };
}
