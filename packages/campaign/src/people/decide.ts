import type { Draft } from '@firnbook/journal';
import { ADDED, CORRECTED, LINK_VERSION } from '../apply.ts';
import type { Command, Context, Readings, Refusal } from '../command.ts';
import { findThing, isCalled, standing } from '../find.ts';
import { nameSentence } from '../frozen-names.ts';
import { sentence } from '../texts/sentence.ts';
import { textIn } from '../thing-view.ts';
import type { CampaignView, ThingView } from '../view.ts';
import { rightText } from './conflicts.ts';
import { rightFor } from './right-for.ts';
import { rightsOf, whoMay } from './rights.ts';

/** Why a person can't do this here and now; null where they can. */
export function barred(campaign: CampaignView, command: Command, context: Context): Refusal | null {
  const { by } = context;
  // Nobody yet: who logs themself first, and what has nobody named, is told elsewhere.
  if (by === '') return null;
  // Most campaigns: no need to look the thing up.
  if (context.unproven !== true && campaign.rights?.byName !== true) return null;
  const right = rightFor(command, campaign);
  const person = initialsOf(campaign, by);
  if (!rightsOf(campaign, by)[right]) {
    return {
      field: 'by',
      what: sentence('refuse.right', { person, right: rightText(right) }),
      mend: sentence('mend.right', { people: whoMay(campaign, right) }),
    };
  }
  if (context.unproven === true && right !== 'log')
    return {
      field: 'by',
      what: sentence('refuse.unproven', { person }),
      mend: sentence('mend.unproven'),
    };
  return takesLast(campaign, command);
}

/** A campaign in which nobody can sign off could never be put right. */
function takesLast(campaign: CampaignView, command: Command): Refusal | null {
  if (campaign.rights?.byName !== true || !losesSignOff(command)) return null;
  const { thing } = findThing(campaign, command.thing) ?? {};
  if (thing === undefined || thing.kind !== 'person' || !rightsOf(campaign, thing.id).signOff) return null;
  const others = standing(campaign.people).filter(
    (one) => !isCalled(one, thing.id) && rightsOf(campaign, one.id).signOff,
  );
  if (others.length > 0) return null;
  return {
    field: 'signOff',
    what: sentence('refuse.last', { person: nameSentence(thing) }),
    mend: sentence('mend.last'),
  };
}

function losesSignOff(command: Command): command is Extract<Command, { do: 'add' | 'correct' | 'withdraw' }> {
  if (command.do === 'withdraw') return true;
  return (command.do === 'add' || command.do === 'correct') && isWord(command.readings, 'signOff', 'no');
}

/** What whoever makes rights a matter of names is given with it, so that they can take it back. */
export const keys: Readings = { plan: 'yes', signOff: 'yes' };

/** What goes before a command that makes rights a matter of names in a campaign that is open. */
export function keysOf(campaign: CampaignView, command: Command, context: Context): readonly Draft[] {
  if (command.do !== 'add' && command.do !== 'correct') return [];
  if (!isWord(command.readings, 'rights', 'by name') || campaign.rights?.byName === true) return [];
  const person = standing(campaign.people).find((one) => isCalled(one, context.by));
  if (person === undefined) return [];
  const lacking = Object.keys(keys).filter((field) => textIn(person, field) !== 'yes');
  if (lacking.length === 0) return [];
  const readings = Object.fromEntries(lacking.map((field) => [field, keys[field]!]));
  const old = lacking.flatMap((field) => claimsOn(person, field));
  const draft = {
    id: context.newId(),
    version: LINK_VERSION,
    observedAt: context.observedAt,
    by: context.by,
    body: { thing: person.id, readings },
  };
  if (old.length === 0) return [{ ...draft, kind: ADDED }];
  // The record's own word: whoever reads the entry sees why the old reading went.
  const reason = command.do === 'correct' ? command.reason.trim() : 'by name';
  return [{ ...draft, kind: CORRECTED, reason, corrects: [...new Set(old)] }];
}

function claimsOn({ readings }: ThingView, field: string): readonly string[] {
  const reading = Object.hasOwn(readings, field) ? readings[field]! : null;
  if (reading === null) return [];
  return [reading.entry, ...(reading.agreeing ?? []), ...reading.against.map(({ entry }) => entry)];
}

const isWord = (readings: Readings, field: string, word: string): boolean =>
  String(readings[field]).trim().toLowerCase() === word;

const initialsOf = (campaign: CampaignView, id: string): string =>
  campaign.people.find((person) => isCalled(person, id))?.name ?? '?';
