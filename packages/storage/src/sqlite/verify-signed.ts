import { claimOf, type Entry, NOT_ITS_KEY } from '@firnbook/journal';
import { verifyEd25519 } from './ed25519.ts';
import { type Finding, finding, type Verdict, verifyJournal } from './verify.ts';

/** Entries by what their signature is worth (J9). */
interface SignatureCount {
  readonly signed: number;
  /** By devices that had no key, or before they had one. */
  readonly unsigned: number;
  /** Signed, and nothing in the chain that this program can read says by whom. */
  readonly unknownKey: number;
  /** Each is a finding too. */
  readonly wrong: number;
}

export interface SignedVerdict extends Verdict {
  readonly signatures: SignatureCount;
}

/**
 * As `verifyJournal`, and every signature with it: 60 µs each, so this is done when a person asks, not at every
 * start. A backup is brought back without asking: a wrong signature is no reason to leave a record behind.
 *
 * @param see as that of `verifyJournal`
 * @throws as `verifyJournal`
 */
export function verifySigned(file: string, see: (entry: Entry) => void = () => undefined): SignedVerdict {
  const count = { signed: 0, unsigned: 0, unknownKey: 0, wrong: 0 };
  const wrong: Finding[] = [];
  const keyBefore = statedKeys();
  const verdict = verifyJournal(file, (entry) => {
    see(entry);
    const problem = weigh(entry, keyBefore(entry), count);
    if (problem === null) return;
    const what = `It can't be taken for its device's word: ${problem}`;
    wrong.push(finding(file, what, entry.sealed));
  });
  const findings = [...verdict.findings, ...wrong];
  return { ...verdict, ok: findings.length === 0, findings, signatures: count };
}

/** Counts an entry's signature, and says what is wrong with it. */
function weigh(
  entry: Entry,
  before: string | null,
  count: { -readonly [K in keyof SignatureCount]: number },
): string | null {
  const claim = claimOf(entry, before);
  if (claim.is === 'unsigned') count.unsigned += 1;
  else if (claim.is === 'unknown key') count.unknownKey += 1;
  else if (claim.is === 'to be checked' && verifyEd25519(claim.key, claim.signature, entry.sealed.head))
    count.signed += 1;
  else {
    count.wrong += 1;
    return claim.is === 'wrong' ? claim.problem : NOT_ITS_KEY;
  }
  return null;
}

/** Says which key an entry's chain has stated before it; told of all entries in order of arrival. */
function statedKeys(): (entry: Entry) => string | null {
  /** By hash, of the entry that stated it and of all behind it. */
  const stated = new Map<string, string>();
  return ({ hash, header: { previous, key: own } }) => {
    const before = previous === null ? null : (stated.get(previous) ?? null);
    const key = before ?? own;
    if (key !== undefined) stated.set(hash, key);
    return before;
  };
}
