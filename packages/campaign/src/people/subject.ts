import type { Entry, JsonObject } from '@firnbook/journal';
import { ADDED, CORRECTED, JOINED, RESTORED, WITHDRAWN } from '../apply.ts';
import type { Kind, Right } from '../kind.ts';
import { kindLoggedBy, kinds } from '../kinds.ts';
import type { Thing, ThreadState } from '../thread.ts';
import { rightToLink, rightToSay } from './right-for.ts';

/** The thing that an entry of a thread made or says something about; undefined where it is not here. */
export function subjectOf(state: ThreadState, { header, body }: Entry): Thing | undefined {
  if (kindLoggedBy(header.kind) !== undefined) return state.things.get(header.id);
  if (body === null) return undefined;
  const id = header.kind === JOINED ? body.into : isLink(header.kind) ? body.thing : undefined;
  return typeof id === 'string' ? state.things.get(id) : undefined;
}

/** The right that it took to write an entry about a thing of a kind. */
export function rightUsed({ header, body }: Entry, kind: Kind): Right {
  if (plain.has(kind)) return 'log';
  const { kind: word } = header;
  if (word === WITHDRAWN || word === RESTORED || word === JOINED) return rightToLink(kind);
  return rightToSay(kind, fieldsSaid(body));
}

export function fieldsSaid(body: JsonObject | null): readonly string[] {
  const readings = body?.readings;
  return typeof readings === 'object' && readings !== null ? Object.keys(readings) : [];
}

/** The entries that a person lets stand by one that settles a right. */
export function entriesNamed({ body }: Entry): readonly string[] {
  const readings = body?.readings;
  const isObject = typeof readings === 'object' && readings !== null && !Array.isArray(readings);
  const text = isObject ? (readings as JsonObject).entries : undefined;
  return typeof text === 'string' ? text.split(/\s+/).filter((id) => id !== '') : [];
}

export const isLink = (word: string): boolean => links.has(word);

const links: ReadonlySet<string> = new Set([ADDED, CORRECTED, WITHDRAWN, RESTORED, JOINED]);

/** Whether an entry logs something that takes no more than the right to log: most do. */
export function isPlain({ header }: Entry): boolean {
  const kind = kindLoggedBy(header.kind);
  return kind !== undefined && plain.has(kind);
}

/** Kinds of which everything can be said by whoever may log: most entries are about one of these. */
const plain: ReadonlySet<Kind> = new Set(kinds.filter((kind) => rightToLink(kind) === 'log'));
