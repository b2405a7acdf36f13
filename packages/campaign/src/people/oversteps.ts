import { type Entry, placeOf } from '@firnbook/journal';
import { ADDED, CORRECTED, WITHDRAWN } from '../apply.ts';
import type { Right } from '../kind.ts';
import { rootOf, type Thing, type ThreadState } from '../thread.ts';
import { rightsIn } from './rights.ts';
import { fieldsSaid, isLink, isPlain, rightUsed, subjectOf } from './subject.ts';
import { type RightsTimeline, stepBefore } from './timeline.ts';

/** An entry whose author lacked the right to it at its place in the total order. It counts like any other. */
export interface Overstep {
  readonly entry: Entry;
  readonly right: Right;
  /** What it is about, after all joins. */
  readonly thing: Thing;
  /** Entry that took the right away, or that made rights a matter of names. */
  readonly since: Entry;
  /** Whether the person had had the right by name and lost it. */
  readonly wasTaken: boolean;
}

/** A thread looked through as far as it went. */
export interface Looked {
  readonly timeline: RightsTimeline;
  readonly state: ThreadState;
  /** How many entries, and the last of them. */
  readonly count: number;
  readonly last: Entry | undefined;
  readonly wrong: readonly Wrong[];
  /** Whether an entry is about something that is not here yet. */
  readonly isOpen: boolean;
}

interface Wrong extends Omit<Overstep, 'thing'> {
  readonly subject: Thing;
}

/**
 * Looks through a thread for oversteps. They follow from the set of entries alone: the same for any order of arrival
 * (J1).
 *
 * @param entries of the thread, in total order
 * @param before what the last look gave: where entries have only come behind it since, these alone are looked at
 */
export function lookThrough(
  state: ThreadState,
  entries: readonly Entry[],
  timeline: RightsTimeline,
  before: Looked | undefined,
): Looked {
  const goesOn =
    before !== undefined &&
    !before.isOpen &&
    before.timeline === timeline &&
    before.state === state &&
    entries[before.count - 1] === before.last;
  const first = timeline.steps.find(({ rights }) => rights.byName);
  const start = first === undefined ? entries.length : placeOf(entries, first.after);
  const muted = withoutLog(timeline);
  const wrong: Wrong[] = goesOn ? [...before.wrong] : [];
  let isOpen = false;
  for (let i = goesOn ? Math.max(before.count, start) : start; i < entries.length; i++) {
    const entry = entries[i]!;
    const { by } = entry.header;
    if (!muted.has(by) && isPlain(entry)) continue;
    const subject = subjectOf(state, entry);
    if (subject === undefined) {
      isOpen ||= isLink(entry.header.kind);
      continue;
    }
    const right = rightUsed(entry, subject.kind);
    if (right === 'log' && !muted.has(by)) continue;
    const at = stepBefore(timeline.steps, entry);
    if (rightsIn(timeline.steps[at]?.rights, by)[right]) continue;
    wrong.push({ entry, right, subject, ...lostAt(timeline, at, by, right) });
  }
  return { timeline, state, count: entries.length, last: entries.at(-1), wrong, isOpen };
}

/** Those that nobody has settled yet, oldest first. */
export function unsettled({ timeline, state, wrong }: Looked): readonly Overstep[] {
  if (wrong.length === 0) return [];
  const others = new Set(wrong.map(({ entry }) => entry));
  return wrong
    .filter(({ entry }) => !timeline.settled.has(entry.header.id))
    .map(({ subject, ...one }) => ({ ...one, thing: rootOf(state, subject.id)! }))
    .filter((one) => !isUndone(one, others));
}

/** Ids of whoever lacked the right to log at some time: nobody, in most campaigns. */
function withoutLog({ steps }: RightsTimeline): ReadonlySet<string> {
  const ids = new Set<string>();
  for (const { rights } of steps)
    if (rights.byName) for (const [id, { log }] of rights.people) if (!log) ids.add(id);
  return ids;
}

function lostAt(
  { steps }: RightsTimeline,
  at: number,
  by: string,
  right: Right,
): Pick<Overstep, 'since' | 'wasTaken'> {
  let lost = at;
  while (lost > 0 && !rightsIn(steps[lost - 1]!.rights, by)[right]) lost -= 1;
  return { since: steps[lost]!.after, wasTaken: steps[lost - 1]?.rights.byName ?? false };
}

/**
 * Whether somebody who had the right to it has undone what an entry says: withdrawn the thing, brought back what the
 * entry withdrew, or corrected every reading that it gave.
 */
function isUndone({ entry, thing }: Overstep, wrong: ReadonlySet<Entry>): boolean {
  const members = [thing, ...thing.absorbed];
  const withdrawals = members.flatMap((one) => one.withdrawals);
  if (members.every((one) => one.withdrawals.some((by) => !wrong.has(by)))) return true;
  const { kind, id } = entry.header;
  if (kind === WITHDRAWN) return !withdrawals.includes(entry);
  if (kind !== ADDED && kind !== CORRECTED) return false;
  const later = members
    .flatMap((one) => one.said)
    .filter(({ source }) => !wrong.has(source) && (source.header.corrects?.includes(id) ?? false));
  return fieldsSaid(entry.body).every((field) =>
    later.some(({ readings }) => Object.hasOwn(readings, field)),
  );
}
