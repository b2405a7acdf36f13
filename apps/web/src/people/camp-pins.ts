import { ownStanding } from '../pair/standing.ts';

/** Of a person who has a PIN. */
interface PinLine {
  readonly person: string;
  /** ISO 8601, UTC, of the camp computer's clock. */
  readonly setAt: string;
}

/** What the camp computer says to a PIN. */
export type CampAnswer =
  | { readonly is: 'right'; readonly setAt: string }
  | { readonly is: 'wrong' }
  | { readonly is: 'wait'; readonly seconds: number }
  /** It has one already, it is one of those tried first, the person is unknown there: its own words. */
  | { readonly is: 'refused'; readonly says: string; readonly isUnknown: boolean };

/** The PINs as the camp computer keeps them. Every call rejects where it gives no answer. */
export interface CampPins {
  list(): Promise<readonly PinLine[]>;
  check(person: string, pin: string): Promise<CampAnswer>;
  choose(person: string, pin: string): Promise<CampAnswer>;
  /** At the camp computer alone. */
  reset(person: string): Promise<void>;
}

/** A tablet out of reach must not keep its hands waiting, ms. */
const listPatience = 4_000;
/** A crew that gives its PINs at once waits in line there, ms. */
const checkPatience = 20_000;

/** @param ask the browser's fetch */
export function campPins(campaign: string, ask: typeof fetch = ownStanding.ask): CampPins {
  const at = `/api/campaigns/${encodeURIComponent(campaign)}/pins`;
  const send = (path: string, body: object): Promise<Response> =>
    ask(`${at}/${path}`, {
      method: 'POST',
      cache: 'no-store',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
      signal: AbortSignal.timeout(checkPatience),
    });
  return {
    async list() {
      const answer = await ask(at, { cache: 'no-store', signal: AbortSignal.timeout(listPatience) });
      const list: unknown = await answer.json();
      if (!answer.ok || !Array.isArray(list)) throw new Error(`${answer.status} instead of a list of PINs`);
      return list as readonly PinLine[];
    },
    check: async (person, pin) => answerIn(await send(`${encodeURIComponent(person)}/check`, { pin })),
    choose: async (person, pin) => answerIn(await send(encodeURIComponent(person), { pin })),
    async reset(person) {
      const answer = await send(`${encodeURIComponent(person)}/reset`, {});
      if (!answer.ok) throw new Error(wordsIn(await answer.json()));
    },
  };
}

async function answerIn(answer: Response): Promise<CampAnswer> {
  const said = (await answer.json()) as { readonly setAt?: unknown };
  if (answer.ok && typeof said.setAt === 'string') return { is: 'right', setAt: said.setAt };
  if (answer.status === 403) return { is: 'wrong' };
  if (answer.status === 429) return { is: 'wait', seconds: Number(answer.headers.get('retry-after')) || 60 };
  if (answer.ok || answer.status === 401)
    throw new Error('What answers is not the camp computer, or lets nobody in.');
  return { is: 'refused', says: wordsIn(said), isUnknown: answer.status === 404 };
}

const wordsIn = (said: object): string => {
  const { what, mend } = said as { readonly what?: string; readonly mend?: string };
  return `${what}. ${mend}`;
};
