/** How the camp computer took this device's last request. */
export type Standing = 'welcome' | 'not paired' | 'revoked';

export interface StandingWatch {
  /** The browser's fetch, with an eye on refusals. */
  readonly ask: typeof fetch;
  current(): Standing;
  subscribe(listener: () => void): () => void;
}

/** Learns from every answer of the camp computer whether this device is let in; no answer changes nothing. */
export function watchStanding(ask: typeof fetch): StandingWatch {
  const listeners = new Set<() => void>();
  let standing: Standing = 'welcome';

  const turn = (next: Standing) => {
    if (next === standing) return;
    standing = next;
    for (const listener of listeners) listener();
  };

  return {
    async ask(...request) {
      const answer = await ask(...request);
      if (answer.status === 401) turn(await standingIn(answer.clone()));
      else if (answer.ok) turn('welcome');
      return answer;
    },
    current: () => standing,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Of this page. Only what the camp computer lets paired devices alone do goes through its `ask`. */
export const ownStanding = watchStanding((...request) => fetch(...request));

async function standingIn(refusal: Response): Promise<Standing> {
  const said = (await refusal.json().catch(() => null)) as { readonly why?: unknown } | null;
  return said?.why === 'revoked' ? 'revoked' : 'not paired';
}
