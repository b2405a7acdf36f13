import { isCalled } from '../find.ts';
import { nameSentence } from '../frozen-names.ts';
import type { Right } from '../kind.ts';
import { type Sentence, sentence } from '../texts/sentence.ts';
import type { ConflictView, ThingView } from '../view.ts';
import type { Overstep } from './oversteps.ts';
import { settledRightKind } from './schema.ts';

/**
 * Rights that were used without having them, as people see it. One conflict for each thing that was planned or signed
 * off; one for everything that a person logged without the right, which is settled as a whole.
 *
 * @param people of the campaign
 * @param nameOf the view of a thing of the thread
 * @param place the thread, for the key
 */
export function usedRights(
  steps: readonly Overstep[],
  people: readonly ThingView[],
  nameOf: (step: Overstep) => ThingView | undefined,
  place: string,
): readonly ConflictView[] {
  const found = (id: string): ThingView | undefined => people.find((person) => isCalled(person, id));
  const initials = (id: string): string => found(id)?.name ?? '?';
  const groups = new Map<string, Overstep[]>();
  for (const one of steps) {
    const { by } = one.entry.header;
    const person = found(by)?.id ?? by;
    const key = `right:${one.right}:${person}:${one.right === 'log' ? place : one.thing.id}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups].map(([key, group]) => {
    const last = group.at(-1)!;
    const { right } = last;
    const { by } = last.entry.header;
    const person = found(by)?.id ?? by;
    return {
      key,
      kind: 'right used',
      says: sentence(saysOf(last), {
        person: initials(by),
        count: group.length,
        name: nameIn(nameOf(last)),
        day: dayOf(last.entry.header.observedAt),
        since: sinceOf(last, initials),
      }),
      things: [...new Set(group.map(({ thing }) => thing.id))],
      used: { person, right, entries: group.map(({ entry }) => entry.header.id) },
    };
  });
}

function saysOf({ right, thing, entry }: Overstep): Sentence['key'] {
  if (right === 'log') return 'conflict.right.logged';
  if (right === 'plan') return 'conflict.right.planned';
  if (thing.kind === settledRightKind) return 'conflict.right.settled';
  if (thing.logged === entry && thing.kind.right === 'signOff') return 'conflict.right.signed';
  return thing.kind.right === 'signOff' ? 'conflict.right.changed' : 'conflict.right.given';
}

function sinceOf({ since, wasTaken, right }: Overstep, initials: (id: string) => string): Sentence {
  const { by, observedAt } = since.header;
  const values = { right: rightText(right), day: dayOf(observedAt), by: initials(by) };
  return sentence(wasTaken ? 'right.was.taken' : 'right.by.name', values);
}

const rightTexts = { log: 'right.log', plan: 'right.plan', signOff: 'right.signOff' } as const;

/** "log", "change a plan", "sign off". */
export const rightText = (right: Right): Sentence => sentence(rightTexts[right]);

const dayOf = (observedAt: string) => ({ day: observedAt.slice(0, 10) });

const nameIn = (thing: ThingView | undefined): Sentence | string =>
  thing === undefined ? '?' : nameSentence(thing);
