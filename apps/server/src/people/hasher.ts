import { randomBytes } from 'node:crypto';
import { type Algorithm, hash, verify } from '@node-rs/argon2';

/** Hashes PINs for keeping. 'busy' where too many wait already; nothing of it runs on the thread that answers. */
export interface Hasher {
  hash(pin: string): Promise<string | 'busy'>;
  verify(verifier: string, pin: string): Promise<boolean | 'busy'>;
}

/** RFC 9106: argon2id, with 64 MiB, three passes and one lane, four times what the usual floor asks for. */
const cost = { algorithm: 2 as Algorithm.Argon2id, memoryCost: 64 * 1024, timeCost: 3, parallelism: 1 };

/** Each takes 64 MiB and a processor for a while: the others wait, so that the camp computer goes on answering. */
const atOnce = 2;
/** More than a crew; those beyond are told to come again. */
const mostWaiting = 100;

export function argon2id(): Hasher {
  const turns = openTurns(atOnce, mostWaiting);
  return {
    hash: (pin) => turns(() => hash(pin, cost)),
    verify: (verifier, pin) => turns(() => verify(verifier, pin)),
  };
}

/** A verifier that no PIN fits: checking against it takes as long as against a real one. */
export function decoy(): string {
  const { memoryCost, timeCost, parallelism } = cost;
  const bare = (length: number) => randomBytes(length).toString('base64').replaceAll('=', '');
  return `$argon2id$v=19$m=${memoryCost},t=${timeCost},p=${parallelism}$${bare(16)}$${bare(32)}`;
}

/** Lets so many work at once, the others one after the other in the order in which they came. */
export function openTurns(
  most: number,
  mostInLine: number,
): <T>(work: () => Promise<T>) => Promise<T | 'busy'> {
  const line: (() => void)[] = [];
  let working = 0;

  return async (work) => {
    if (working >= most) {
      if (line.length >= mostInLine) return 'busy';
      await new Promise<void>((resolve) => line.push(resolve));
    } else working += 1;
    try {
      return await work();
    } finally {
      // The turn goes to whoever is next, or lapses.
      const next = line.shift();
      if (next === undefined) working -= 1;
      else next();
    }
  };
}
