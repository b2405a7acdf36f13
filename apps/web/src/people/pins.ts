import type { CampAnswer, CampPins } from './camp-pins.ts';
import { checkHere, type Derive, dropVerifier, keepVerifier, ownVerifier } from './verifier.ts';

/** How a person can show here and now that it is them. */
export type Ground =
  /** The camp computer answers, and knows a PIN of theirs. */
  | 'camp'
  /** It answers, and they have none yet. */
  | 'choose'
  /** It is away, and this device has seen their PIN. */
  | 'here'
  /** It is away, and this device has not. */
  | 'nowhere';

export type Told =
  | Exclude<CampAnswer, { is: 'right' }>
  | { readonly is: 'right' }
  /** The camp computer went away, and this device has not seen the PIN. */
  | { readonly is: 'nowhere' };

/** One campaign's PINs as this device can have them checked. */
export interface Pins {
  ground(person: string): Promise<Ground>;
  give(person: string, pin: string, ground: Ground): Promise<Told>;
  choose(person: string, pin: string): Promise<Told>;
}

export interface PinsOptions {
  readonly campaign: string;
  readonly camp: CampPins;
  readonly derive: Derive;
  readonly now: () => number;
  /** Brings to the camp computer what it does not know yet: the person, for one. */
  readonly send: () => void;
}

/** The camp computer hears of a new person with the next exchange: so often, and this far apart in ms, it is asked again. */
const tries = 8;
const pause = 700;

export function startPins({ campaign, camp, derive, now, send }: PinsOptions): Pins {
  /** In the background: whoever gave the right PIN goes on at once. */
  const remember = (person: string, pin: string, setAt: string) => {
    // Without it the PIN can't be checked while the camp computer is away, no more.
    void keepVerifier(campaign, person, { pin, setAt }, derive).catch(() => undefined);
  };
  const taken = (person: string, pin: string, answer: CampAnswer): Told => {
    if (answer.is === 'right') remember(person, pin, answer.setAt);
    return answer;
  };
  const here = async (person: string, pin: string): Promise<Told> => {
    const own = ownVerifier(campaign, person);
    return own === null ? { is: 'nowhere' } : checkHere(campaign, person, pin, { own, derive, now });
  };

  return {
    async ground(person) {
      try {
        const line = (await camp.list()).find((one) => one.person === person);
        // It was reset or changed meanwhile: what is kept here is of another PIN.
        if (ownVerifier(campaign, person)?.setAt !== line?.setAt) dropVerifier(campaign, person);
        return line === undefined ? 'choose' : 'camp';
      } catch {
        return ownVerifier(campaign, person) === null ? 'nowhere' : 'here';
      }
    },
    async give(person, pin, ground) {
      if (ground !== 'camp') return here(person, pin);
      let answer: CampAnswer;
      try {
        answer = await camp.check(person, pin);
      } catch {
        return here(person, pin);
      }
      return taken(person, pin, answer);
    },
    async choose(person, pin) {
      try {
        for (let count = 1; ; count += 1) {
          const answer = await camp.choose(person, pin);
          const isAwaited = answer.is === 'refused' && answer.isUnknown && count < tries;
          if (!isAwaited) return taken(person, pin, answer);
          send();
          await new Promise((resolve) => setTimeout(resolve, pause));
        }
      } catch {
        return { is: 'nowhere' };
      }
    },
  };
}
